import type { SheetDocument } from '@quarrel/language';
import type { GrammarAST } from 'langium';
import type { LanguageServices } from '../../services.js';
import { blockOf, itemsBehind, levelsBefore, type OpenLevel } from './levels.js';
import { type Net, netOf } from './net.js';
import { countBefore, endOf, type Frame, type Thread, type Token } from './threads.js';

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

/** From the beginning of the declaration before an offset to that of the next one. */
export function declarationAround(
  { parseResult, textDocument }: SheetDocument,
  offset: number,
): { readonly from: number; readonly to: number } {
  // Where the parser has lost its way, a part of a procedure may count as a declaration; those stand further in.
  const starts = parseResult.value.declarations.flatMap(({ $cstNode }) =>
    $cstNode !== undefined && $cstNode.range.start.character === 0 ? [$cstNode.offset] : [],
  );
  const from = starts.findLast((start) => start < offset) ?? 0;
  const to = starts.find((start) => start > offset) ?? textDocument.getText().length;
  return { from, to };
}

/** The words around an offset: not of the whole sheet, which takes longer than anybody waits. */
function stretchAround(document: SheetDocument, offset: number, services: LanguageServices): Stretch {
  const root = document.parseResult.value;
  const known = lexed.get(root);
  if (known !== undefined && known.from <= offset && offset <= known.to) return known;
  const { from, to } = declarationAround(document, offset);
  const text = document.textDocument.getText().slice(from, to);
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

function isFirstOnLine(text: string, offset: number): boolean {
  return text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset).trim() === '';
}
