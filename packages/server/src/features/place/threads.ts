import type { LexerResult } from 'langium';
import type { Expected, Net, Point } from './net.js';

export type Token = LexerResult['tokens'][number];

/** A rule of the grammar that is being gone through, and what it has met so far. */
export interface Frame {
  readonly rule: string;
  /** The property of the frame around it that it is for. */
  readonly feature: string | undefined;
  readonly around: Frame | undefined;
  readonly met: Met | undefined;
  readonly back: Back | undefined;
  /** Tells frames apart. */
  readonly key: string;
}

/** What stands for a property, the last one first. */
interface Met {
  readonly feature: string;
  readonly image: string;
  readonly earlier: Met | undefined;
}

interface Back {
  readonly to: Point;
  readonly isWord: boolean;
}

/** One way to read what has been read: a word that may come next, and the rules around it. */
export interface Thread {
  readonly expected: Expected;
  readonly frame: Frame;
  readonly to: Point;
}

/** Where a rule can begin. */
export function begin(net: Net, rule: string): readonly Thread[] {
  const start = net.get(rule)?.start;
  return start === undefined
    ? []
    : spread(net, [{ point: start, frame: frameOf(rule, undefined, undefined, undefined), last: '' }]);
}

/** What can come behind a token; nothing where the token cannot stand here. */
export function advance(net: Net, threads: readonly Thread[], token: Token): readonly Thread[] {
  const taken = threads.filter(({ expected }) => accepts(expected, token));
  return taken.length === 0
    ? []
    : spread(
        net,
        taken.map(({ expected, frame, to }) => ({
          point: to,
          frame: withMet(frame, expected.feature, token.image),
          last: token.image,
        })),
      );
}

/** Goes on as if words were there that are missing, as few as possible, up to a `{` and through it. */
export function insertUpToBrace(net: Net, threads: readonly Thread[]): readonly Thread[] {
  let now = threads;
  for (let inserted = 0; inserted < 5 && now.length > 0 && now.length < 200; inserted += 1) {
    const braces = now.filter(({ expected }) => expected.keyword === '{');
    if (braces.length > 0)
      return spread(
        net,
        braces.map(({ frame, to }) => ({ point: to, frame, last: '{' })),
      );
    now = spread(
      net,
      now.map(({ frame, to }) => ({ point: to, frame, last: '' })),
    );
  }
  return [];
}

/** What a frame or one around it has met for a property of a rule, the last one first. */
export function metIn(frame: Frame | undefined, rule: string, feature: string): readonly string[] {
  for (let at = frame; at !== undefined; at = at.around) {
    if (at.rule !== rule) continue;
    const images: string[] = [];
    for (let met = at.met; met !== undefined; met = met.earlier) if (met.feature === feature) images.push(met.image);
    return images;
  }
  return [];
}

export function isWithin(frame: Frame | undefined, rule: string): boolean {
  for (let at = frame; at !== undefined; at = at.around) if (at.rule === rule) return true;
  return false;
}

export function accepts({ keyword, terminal }: Expected, { image, tokenType }: Token): boolean {
  return keyword === undefined ? tokenType.name === terminal : image === keyword && !isFree(tokenType.name);
}

/** Whether a token is a name, a text, a number or a unit, and no word or sign of the language. */
export function isFree(type: string): boolean {
  return /^(ID|STRING|NUMBER|UNIT)$/.test(type);
}

interface Standing {
  readonly point: Point;
  readonly frame: Frame;
  readonly last: string;
}

/** Follows every way from some points up to the next words. */
function spread(net: Net, from: readonly Standing[]): readonly Thread[] {
  const threads: Thread[] = [];
  const seen = new Set<string>();
  const waiting = [...from];
  // `waiting` grows while it is walked.
  for (const { point, frame, last } of waiting) {
    const key = `${point.id} ${frame.key}`;
    if (seen.has(key)) continue;
    seen.add(key);
    for (const way of point.ways) {
      if (way.kind === 'on') waiting.push({ point: way.to, frame, last });
      else if (way.kind === 'word') threads.push({ expected: way.expected, frame, to: way.to });
      else {
        const start = net.get(way.rule)?.start;
        const back = { to: way.to, isWord: way.isWord };
        if (start !== undefined)
          waiting.push({ point: start, frame: frameOf(way.rule, way.feature, frame, back), last });
      }
    }
    if (point === net.get(frame.rule)?.end && frame.around !== undefined && frame.back !== undefined) {
      const { to, isWord } = frame.back;
      waiting.push({ point: to, frame: isWord ? withMet(frame.around, frame.feature, last) : frame.around, last });
    }
  }
  return threads;
}

function frameOf(rule: string, feature: string | undefined, around: Frame | undefined, back: Back | undefined): Frame {
  return { rule, feature, around, met: undefined, back, key: `${around?.key ?? ''}/${rule}${back?.to.id ?? ''}` };
}

function withMet(frame: Frame, feature: string | undefined, image: string): Frame {
  if (feature === undefined) return frame;
  return { ...frame, met: { feature, image, earlier: frame.met }, key: `${frame.key} ${feature}=${image}` };
}

/** The words of the language that have to follow behind a word, whatever else is written. */
export function wordsBehind(net: Net, thread: Thread): readonly string[] {
  const words: string[] = [];
  let now = spread(net, [{ point: thread.to, frame: thread.frame, last: '' }]);
  for (let only = now[0]; only !== undefined && now.length === 1; only = now[0]) {
    const { keyword } = only.expected;
    if (keyword === undefined || !/^[a-z]/.test(keyword)) break;
    words.push(keyword);
    now = spread(net, [{ point: only.to, frame: only.frame, last: keyword }]);
  }
  return words;
}

/** How many tokens begin before an offset. */
export function countBefore(tokens: readonly Token[], offset: number): number {
  let low = 0;
  let high = tokens.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const token = tokens[middle];
    if (token !== undefined && token.startOffset < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

export function endOf({ startOffset, image }: Token): number {
  return startOffset + image.length;
}
