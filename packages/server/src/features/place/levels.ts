import type { Net } from './net.js';
import {
  accepts,
  advance,
  begin,
  countBefore,
  type Frame,
  insertUpToBrace,
  isFree,
  type Thread,
  type Token,
} from './threads.js';

/** A block that is being read. */
export interface OpenLevel {
  base: readonly Thread[];
  threads: readonly Thread[];
  items: Token[][];
  /** Whether the last item goes on. */
  isOpen: boolean;
}

/** The blocks around the end of the first `count` tokens. A block that is closed again counts as an empty one. */
export function levelsBefore(net: Net, tokens: readonly Token[], count: number): readonly OpenLevel[] {
  const closing = closingBraces(tokens, count);
  const levels: OpenLevel[] = [openLevel(begin(net, 'Sheet'))];
  for (let at = 0; at < count; at += 1) {
    const token = tokens[at];
    const top = levels.at(-1);
    if (token === undefined || top === undefined) break;
    const type = token.tokenType.name;
    if (type === '{') {
      const inside = throughBrace(net, top, token);
      const closedAt = closing.get(at);
      const end = closedAt === undefined ? undefined : tokens[closedAt];
      if (closedAt === undefined || end === undefined) levels.push(openLevel(inside));
      else {
        top.threads = advance(net, inside, end);
        top.items.at(-1)?.push(token, end);
        at = closedAt;
      }
    } else if (type === '}') {
      if (levels.length > 1) close(net, levels, token);
    } else {
      if (isNewLine(tokens, at)) leaveFor(levels, token);
      read(net, levels.at(-1) ?? top, tokens, at);
    }
  }
  return levels;
}

function openLevel(base: readonly Thread[]): OpenLevel {
  return { base, threads: base, items: [], isOpen: false };
}

/** Which `{` of the first `count` tokens are closed, by which `}`. */
function closingBraces(tokens: readonly Token[], count: number): ReadonlyMap<number, number> {
  const closing = new Map<number, number>();
  const open: number[] = [];
  for (let at = 0; at < count; at += 1) {
    const type = tokens[at]?.tokenType.name;
    if (type === '{') open.push(at);
    else if (type === '}') {
      const opened = open.pop();
      if (opened !== undefined) closing.set(opened, at);
    }
  }
  return closing;
}

function throughBrace(net: Net, level: OpenLevel, token: Token): readonly Thread[] {
  const brace: Token = token.image === '{' ? token : { ...token, image: '{' };
  const through = advance(net, level.threads, brace);
  return through.length > 0 ? through : insertUpToBrace(net, level.threads);
}

function close(net: Net, levels: OpenLevel[], token: Token): void {
  const inner = levels.pop();
  const outer = levels.at(-1);
  if (inner === undefined || outer === undefined) return;
  const behind = advance(net, inner.base, token);
  outer.threads = behind.length > 0 ? behind : outer.base;
  outer.items.at(-1)?.push(token);
}

/** Leaves blocks whose `}` is missing: a line begins with a word that can stand in a block further out only. */
function leaveFor(levels: OpenLevel[], token: Token): void {
  const top = levels.at(-1);
  if (top === undefined || isFree(token.tokenType.name)) return;
  if (canTake(top.threads, token) || canTake(top.base, token)) return;
  const home = levels.findLastIndex(({ base }) => canTake(base, token));
  while (home >= 0 && levels.length - 1 > home) {
    levels.pop();
    const outer = levels.at(-1);
    if (outer !== undefined) outer.threads = outer.base;
  }
}

function canTake(threads: readonly Thread[], token: Token): boolean {
  return threads.some(({ expected }) => accepts(expected, token));
}

/** Reads one token; where it cannot stand, what it is in is given up, and the next line or `;` begins anew. */
function read(net: Net, level: OpenLevel, tokens: readonly Token[], at: number): void {
  const token = tokens[at];
  if (token === undefined) return;
  if (token.tokenType.name === ';') {
    const behind = advance(net, level.threads, token);
    level.threads = behind.length > 0 ? behind : level.base;
    level.isOpen = false;
    return;
  }
  const isBeginning = isBoundary(tokens, at) && canTake(level.base, token);
  const starts = new Set(level.base.map(({ expected }) => expected));
  const taken = level.threads.filter(({ expected }) => accepts(expected, token));
  const isNew = taken.length > 0 ? taken.some(({ expected }) => starts.has(expected)) : isBeginning;
  const next = advance(net, taken.length > 0 ? taken : isBeginning ? level.base : [], token);
  if (isNew || level.items.length === 0) level.items.push([token]);
  else level.items.at(-1)?.push(token);
  level.isOpen = true;
  level.threads = next;
}

function isBoundary(tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1]?.tokenType.name;
  return before === undefined || before === ';' || before === '{' || before === '}' || isNewLine(tokens, at);
}

function isNewLine(tokens: readonly Token[], at: number): boolean {
  const [before, token] = [tokens[at - 1], tokens[at]];
  return before === undefined || (token?.startLine ?? 0) > (before.endLine ?? before.startLine ?? 0);
}

/** What stands in the block of `level` from an offset on. A word that begins at the cursor is the one that is asked about. */
export function itemsBehind(net: Net, level: OpenLevel, tokens: readonly Token[], from: number): readonly Token[][] {
  const rest = openLevel(level.base);
  // First comes what is left of the clause at the cursor.
  rest.items.push([]);
  let depth = 0;
  for (let at = countBefore(tokens, from); at < tokens.length; at += 1) {
    const token = tokens[at];
    const type = token?.tokenType.name;
    if (token === undefined || (type === '}' && depth === 0)) break;
    if (type === '{') depth += 1;
    else if (type === '}') depth -= 1;
    else if (depth === 0) {
      if (
        isNewLine(tokens, at) &&
        !isFree(token.tokenType.name) &&
        !canTake(rest.threads, token) &&
        !canTake(rest.base, token)
      )
        break;
      read(net, rest, tokens, at);
      continue;
    }
    if (depth === 0) rest.threads = rest.base;
  }
  return rest.items;
}

/** The frame whose block begins here. */
export function blockOf(base: readonly Thread[]): Frame | undefined {
  const closes = base.find(({ expected }) => expected.keyword === '}');
  return closes?.frame;
}
