import type { SheetDocument } from '@quarrel/language';
import type { GrammarAST } from 'langium';
import type { LanguageServices } from '../../services.js';
import { type Net, netOf } from './net.js';
import { accepts, advance, begin, type Frame, insertUpToBrace, isFree, type Thread, type Token } from './threads.js';

/** A clause, a declaration or a part of the flow, as far as it stands in one block: what is between its braces is left out. */
export interface Item {
  readonly tokens: readonly Token[];
  /** What of it stands behind the cursor, where the cursor is in it. */
  readonly rest: readonly Token[];
  /** Whether it stands behind the cursor. */
  readonly isBehind: boolean;
}

/** A block that the cursor is in; the sheet itself is the outermost. */
export interface Level {
  /** What may begin something in it. */
  readonly base: readonly Thread[];
  readonly items: readonly Item[];
  /** The rule whose block it is: `Step`, `Choose`, `Block`. */
  readonly frame: Frame | undefined;
}

/** Where a cursor stands, told from the words before it: it has an answer in a sheet that is broken, too. */
export interface Place {
  /** Where the word begins that is being typed, and where it ends; the cursor where there is none. */
  readonly start: number;
  readonly end: number;
  readonly previous: Token | undefined;
  /** Whether it is the first word of its line. */
  readonly isFirst: boolean;
  /** The blocks around it, the innermost last. */
  readonly levels: readonly Level[];
  /** What may stand here. */
  readonly threads: readonly Thread[];
  /** The tokens of the clause that is being written; none between two. */
  readonly item: readonly Token[];
}

/** What surrounds a cursor that stands in no place for words: a text, with the token before it, or a comment. */
export type Surrounding =
  | { readonly kind: 'place'; readonly place: Place }
  | { readonly kind: 'text'; readonly start: number; readonly end: number; readonly before: Token | undefined }
  | { readonly kind: 'nothing' };

interface OpenLevel {
  base: readonly Thread[];
  threads: readonly Thread[];
  items: Token[][];
  /** Whether the last item goes on. */
  isOpen: boolean;
}

const lexed = new WeakMap<object, Stretch>();
const nets = new WeakMap<GrammarAST.Grammar, Net>();

/** A part of a sheet, in words: a declaration, with what stands behind it up to the next. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  readonly tokens: readonly Token[];
  readonly hidden: readonly Token[];
}

/**
 * The place of an offset in a sheet. The word at the offset is being `typed`, and tells nothing yet; or it is `written`, and the
 * place is behind it.
 */
export function placeAt(
  document: SheetDocument,
  at: number,
  services: LanguageServices,
  word: 'typed' | 'written' = 'typed',
): Surrounding {
  const { from, text, tokens, hidden } = stretchAround(document, at, services);
  const offset = at - from;
  if (hidden.some((token) => isInComment(token, offset, text))) return { kind: 'nothing' };
  const inText = tokens.findIndex((token) => token.tokenType.name === 'STRING' && isInText(token, offset));
  const around = tokens[inText];
  if (around !== undefined) {
    return { kind: 'text', start: from + around.startOffset, end: from + endOf(around), before: tokens[inText - 1] };
  }
  const asked = word === 'typed' ? wordAt(text, offset) : behindWord(tokens, offset);
  if (asked === undefined) return { kind: 'nothing' };
  const count = countBefore(tokens, asked.start);
  const net = netFor(services.Grammar);
  const levels = levelsBefore(net, tokens, count);
  const top = levels.at(-1);
  if (top === undefined) return { kind: 'nothing' };
  const behindFrom = word === 'typed' ? Math.max(asked.end, asked.start + 1) : asked.end;
  const [rest = [], ...behind] = levels.length > 1 ? itemsBehind(net, top, tokens, behindFrom) : [];
  const itemsOf = (level: OpenLevel): readonly Item[] => {
    const before = level.items.map((item, index) => {
      const isCurrent = level === top && level.isOpen && index === level.items.length - 1;
      return { tokens: item, rest: isCurrent ? rest : [], isBehind: false };
    });
    return level === top ? [...before, ...behind.map((item) => ({ tokens: item, rest: [], isBehind: true }))] : before;
  };
  const place: Place = {
    start: from + asked.start,
    end: from + asked.end,
    previous: tokens[count - 1],
    isFirst: isFirstOnLine(text, asked.start),
    levels: levels.map((level) => ({ base: level.base, items: itemsOf(level), frame: blockOf(level.base) })),
    threads: top.threads,
    item: top.isOpen ? (top.items.at(-1) ?? []) : [],
  };
  return { kind: 'place', place };
}

/** The words around an offset: not of the whole sheet, which takes longer than anybody waits. */
function stretchAround(document: SheetDocument, offset: number, services: LanguageServices): Stretch {
  const root = document.parseResult.value;
  const known = lexed.get(root);
  if (known !== undefined && known.from <= offset && offset <= known.to) return known;
  const whole = document.textDocument.getText();
  // Where the parser has lost its way, a part of a procedure may count as a declaration; those stand further in.
  const starts = root.declarations.flatMap(({ $cstNode }) =>
    $cstNode !== undefined && $cstNode.range.start.character === 0 ? [$cstNode.offset] : [],
  );
  const from = starts.findLast((start) => start < offset) ?? 0;
  const to = starts.find((start) => start > offset) ?? whole.length;
  const text = whole.slice(from, to);
  const { tokens, hidden } = services.parser.Lexer.tokenize(text);
  const stretch = { from, to, text, tokens, hidden };
  lexed.set(root, stretch);
  return stretch;
}

export function netFor(grammar: GrammarAST.Grammar): Net {
  const known = nets.get(grammar);
  if (known !== undefined) return known;
  const net = netOf(grammar);
  nets.set(grammar, net);
  return net;
}

function isInComment({ startOffset, image, tokenType }: Token, offset: number, text: string): boolean {
  const end = startOffset + image.length;
  if (tokenType.name === 'SL_COMMENT') return startOffset < offset && offset <= end;
  if (tokenType.name === 'OPEN_COMMENT') return startOffset < offset && offset <= text.length;
  return tokenType.name === 'ML_COMMENT' && startOffset < offset && offset < end;
}

/** Behind a text that is not closed the cursor is in it still. */
function isInText(token: Token, offset: number): boolean {
  const { startOffset, image } = token;
  const isClosed = image.length > 1 && /["“”]$/.test(image);
  return startOffset < offset && (isClosed ? offset < endOf(token) : offset <= endOf(token));
}

/** The word at an offset: what is typed, without a number that touches it; nothing within a number. */
function wordAt(text: string, offset: number): { readonly start: number; readonly end: number } | undefined {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
  const typed = /[^\s;,{}()"“”„:<>=]*$/.exec(line)?.[0] ?? '';
  const number = /^[-−]?[0-9]+([.,][0-9]*)?/.exec(typed)?.[0] ?? '';
  if (number !== '' && number.length === typed.length) return undefined;
  const rest = /^[^\s;,{}()"“”„:<>=]*/.exec(text.slice(offset, offset + 200))?.[0] ?? '';
  const start = offset - typed.length + number.length;
  return { start, end: typed === '' ? offset : offset + rest.length };
}

/** Behind the token that an offset is in or at the beginning or end of. */
function behindWord(tokens: readonly Token[], offset: number): { readonly start: number; readonly end: number } {
  const token = tokens.find((one) => one.startOffset <= offset && offset < endOf(one) && !/^[;{}]$/.test(one.image));
  const end = token === undefined ? offset : endOf(token);
  return { start: end, end };
}

function countBefore(tokens: readonly Token[], offset: number): number {
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

function endOf({ startOffset, image }: Token): number {
  return startOffset + image.length;
}

function isFirstOnLine(text: string, offset: number): boolean {
  return text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset).trim() === '';
}

/** The blocks around the end of the first `count` tokens. A block that is closed again counts as an empty one. */
function levelsBefore(net: Net, tokens: readonly Token[], count: number): readonly OpenLevel[] {
  const closing = closingBraces(tokens, count);
  const levels: OpenLevel[] = [openLevel(begin(net, 'Sheet'))];
  for (let at = 0; at < count; at += 1) {
    const token = tokens[at];
    const top = levels.at(-1);
    if (token === undefined || top === undefined) break;
    const type = token.tokenType.name;
    if (type === '{') {
      const inside = throughBrace(net, top, token);
      const close = closing.get(at);
      const end = close === undefined ? undefined : tokens[close];
      if (close === undefined || end === undefined) levels.push(openLevel(inside));
      else {
        top.threads = advance(net, inside, end);
        top.items.at(-1)?.push(token, end);
        at = close;
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
function itemsBehind(net: Net, level: OpenLevel, tokens: readonly Token[], from: number): readonly Token[][] {
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
function blockOf(base: readonly Thread[]): Frame | undefined {
  const closes = base.find(({ expected }) => expected.keyword === '}');
  return closes?.frame;
}
