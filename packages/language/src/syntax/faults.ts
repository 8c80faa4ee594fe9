import { nearest } from '@quarrel/model';
import type { ParseResult } from 'langium';
import { unclosedBlock } from './braces.js';
import { type Expectation, expectations } from './expected.js';
import type { Token } from './tokens.js';

export type SyntaxFault = ParseResult['parserErrors'][number];

/** An error of the parser with the word to mark: the one that is wrong, or the one behind which something lacks. */
export interface WordedFault extends SyntaxFault {
  readonly marked: Token | undefined;
}

export function isWorded(fault: SyntaxFault): fault is WordedFault {
  return 'marked' in fault;
}

/** How many lines below a fault a block that ends too early is taken for its consequence. */
const reach = 3;

/**
 * The parser's errors in the author's words, one for each fault: of those on one line only the first, none on a line where a
 * character already could not be read, and none that only says that a block ends too early, closely below another.
 */
export function wordFaults(
  faults: readonly SyntaxFault[],
  lexerFaults: ParseResult['lexerErrors'],
  tokens: readonly Token[],
): SyntaxFault[] {
  const lines = new Set<number | undefined>(lexerFaults.map(({ line }) => line));
  const places = new Map(tokens.map((token, at) => [token.startOffset, at]));
  const worded: WordedFault[] = [];
  // A `{` that was skipped explains a `}` that closes nothing.
  let skippedOpen = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (const fault of faults) {
    const { token } = fault;
    const previous = tokens[(isEnd(token) ? tokens.length : (places.get(token.startOffset) ?? 0)) - 1];
    const line = (isEnd(token) ? previous?.endLine : token.startLine) ?? 1;
    const marked = lacksBehind(fault, previous) ? previous : token;
    const follows = isOfBlock(fault) && (line - last <= reach || (token.image === '}' && skippedOpen > 0));
    if (follows && token.image === '}') skippedOpen -= 1;
    skippedOpen += [token, ...fault.resyncedTokens].filter(({ image }) => image === '{').length;
    last = Math.max(last, line);
    if (follows || lines.has(line) || lines.has(marked?.startLine)) continue;
    lines.add(line);
    lines.add(marked?.startLine);
    worded.push({ ...fault, message: messageFor(fault, previous, tokens), marked });
  }
  return worded;
}

/** Whether the parser stopped behind the last word of a sheet. */
function isEnd(token: Token): boolean {
  return token.tokenType.name === 'EOF' || !Number.isFinite(token.startOffset);
}

/** Whether the parser found something in a block that does not belong there. */
function isOfBlock({ name, message }: SyntaxFault): boolean {
  return name === 'MismatchedTokenException' && (message === '}' || message === 'EOF');
}

/** Whether something lacks at the end of one line, and the parser saw it only at the beginning of another. */
function lacksBehind(fault: SyntaxFault, previous: Token | undefined): boolean {
  if (previous === undefined) return false;
  return isEnd(fault.token) || (fault.token.startLine !== previous.endLine && !isOfBlock(fault));
}

function messageFor(fault: SyntaxFault, previous: Token | undefined, tokens: readonly Token[]): string {
  const { token } = fault;
  const rules = fault.context.ruleStack.map((rule) => rule.replace('\u200B', ''));
  const rule = rules.at(-1) ?? '';
  const expectation = expectations[rule] ?? {};
  const found = isEnd(token) ? 'the sheet ends' : `found ${shown(token)}`;
  if (fault.name === 'MismatchedTokenException' && fault.message === '}') {
    const begins = token.tokenType.name !== 'ID' && /^[a-z]/.test(token.image);
    const open = isEnd(token) || begins ? unclosedBlock(tokens, token) : undefined;
    if (open !== undefined) {
      return `\`}\` is missing: the block that \`{\` opens in line ${open.startLine} is not closed.`;
    }
  }
  if (token.image === '}' && rule === 'Sheet') return 'This `}` closes nothing.';
  // A test that is read on its own is given this word to begin with, which its author has not written.
  const isLone = tokens[0]?.image === 'suppose';
  if (isLone && fault.name === 'NotAllInputParsedException')
    return `Expected \`and\`, \`or\` or the end here, but ${found}.`;
  const expected = expectedAt(fault, previous?.image, rules, expectation);
  const hint = hintFor(token, fault, expectation);
  const before = isLone && previous === tokens[0] ? undefined : previous;
  const place = before !== undefined && lacksBehind(fault, before) ? `behind ${shown(before)}` : 'here';
  return `Expected ${expected} ${place}, but ${found}.${hint}`;
}

function shown(token: Token): string {
  const image = token.image.length > 40 ? `${token.image.slice(0, 39)}…` : token.image;
  return `\`${image}\``;
}

function expectedAt(
  fault: SyntaxFault,
  previous: string | undefined,
  rules: readonly string[],
  expectation: Expectation,
): string {
  const rule = rules.at(-1) ?? '';
  if (fault.name === 'MismatchedTokenException') {
    switch (fault.message) {
      case 'ID':
        return expectation.name ?? 'a name';
      case 'STRING':
        return `${expectation.text ?? 'a text'} in quotation marks`;
      case 'NUMBER':
        return rule === 'Repeat' ? 'a number, as in `at most 3 times`' : 'a number with its unit, such as `15 s`';
      case 'EOF':
        return expectation.inside ?? 'the end of the sheet';
      case '}':
        return expectation.inside === undefined ? '`}`' : `${expectation.inside} or \`}\``;
      default:
        return `\`${fault.message}\``;
    }
  }
  // Only a test is ever read by itself; a sheet goes on to its end.
  if (fault.name === 'NotAllInputParsedException') return '`and`, `or` or the end';
  if (rule === 'Comparison') return afterSubject(previous);
  if (previous === 'at' && (rule === 'Span' || rule === 'HoldBound')) return '`least` or `most`';
  return expectation.whole ?? expectation.inside ?? 'something else';
}

function afterSubject(previous: string | undefined): string {
  if (previous === 'is' || previous === 'not') return 'a value';
  if (previous === 'at') return '`most` or `least`';
  return '`is`, `below`, `above`, `at most`, `at least` or `from`';
}

/** The word of the language that was probably meant. */
function hintFor(token: Token, fault: SyntaxFault, { words = [] }: Expectation): string {
  if (isEnd(token) || token.tokenType.name !== 'ID') return '';
  const expected = fault.name === 'MismatchedTokenException' && /^[a-z]/.test(fault.message) ? [fault.message] : words;
  const [near] = nearest(token.image, expected);
  return near === undefined ? '' : ` Did you mean \`${near}\`?`;
}
