import type { ParseResult } from 'langium';
import { nearest } from '../names/nearest.js';
import { unclosedBlock } from './braces.js';
import { type Expectation, expectations } from './expected.js';
import type { Token } from './tokens.js';

export type SyntaxFault = ParseResult['parserErrors'][number];

/**
 * The parser's errors in the author's words, one for each fault: of those on one line only the first, and none on a line where
 * a character already could not be read.
 */
export function wordFaults(
  faults: readonly SyntaxFault[],
  lexerFaults: ParseResult['lexerErrors'],
  tokens: readonly Token[],
): SyntaxFault[] {
  const lines = new Set<number | undefined>(lexerFaults.map(({ line }) => line));
  const worded: SyntaxFault[] = [];
  for (const fault of faults) {
    const previous = previousOf(fault);
    const line = lineOf(fault, tokens);
    if (lines.has(line) || (startsElsewhere(fault, previous) && lines.has(previous?.startLine))) continue;
    lines.add(line);
    worded.push({ ...fault, message: messageFor(fault, tokens) });
  }
  return worded;
}

/** The word before the place where the parser stopped, if there is one. */
export function previousOf(fault: SyntaxFault): Token | undefined {
  const previous = 'previousToken' in fault ? fault.previousToken : undefined;
  return isToken(previous) && !isEnd(previous) ? previous : undefined;
}

function isToken(value: unknown): value is Token {
  return typeof value === 'object' && value !== null && 'image' in value && 'tokenType' in value;
}

/** Whether the parser stopped behind the last word of a sheet. */
export function isEnd(token: Token): boolean {
  return token.tokenType.name === 'EOF' || !Number.isFinite(token.startOffset);
}

/** Whether something lacks at the end of one line, and the parser saw it only at the beginning of another. */
export function startsElsewhere(fault: SyntaxFault, previous: Token | undefined): boolean {
  return previous !== undefined && (isEnd(fault.token) || fault.token.startLine !== previous.endLine);
}

function lineOf(fault: SyntaxFault, tokens: readonly Token[]): number | undefined {
  return isEnd(fault.token) ? tokens.at(-1)?.endLine : fault.token.startLine;
}

function messageFor(fault: SyntaxFault, tokens: readonly Token[]): string {
  const { token } = fault;
  const rules = fault.context.ruleStack.map((rule) => rule.replace('\u200B', ''));
  const rule = rules.at(-1) ?? '';
  const expectation = expectations[rule] ?? {};
  const found = isEnd(token) ? 'the sheet ends' : `found ${shown(token)}`;
  if (fault.name === 'MismatchedTokenException' && fault.message === '}') {
    const open =
      isEnd(token) || !(expectation.words ?? []).includes(token.image) ? unclosedBlock(tokens, token) : undefined;
    if (open !== undefined) {
      return `\`}\` is missing: the block that \`{\` opens in line ${open.startLine} is not closed.`;
    }
  }
  const expected = expectedAt(fault, rules, expectation);
  const hint = hintFor(token, fault, expectation);
  return `Expected ${expected} here, but ${found}.${hint}`;
}

function shown(token: Token): string {
  const image = token.image.length > 40 ? `${token.image.slice(0, 39)}…` : token.image;
  return `\`${image}\``;
}

function expectedAt(fault: SyntaxFault, rules: readonly string[], expectation: Expectation): string {
  const rule = rules.at(-1) ?? '';
  const previous = previousOf(fault)?.image;
  if (fault.name === 'MismatchedTokenException') {
    switch (fault.message) {
      case 'ID':
        return expectation.name ?? 'a name';
      case 'STRING':
        return `${expectation.text ?? 'a text'} in quotation marks`;
      case 'NUMBER':
        return rule === 'Repeat' ? 'a number, as in `at most 3 times`,' : 'a number with its unit, such as `15 s`,';
      case 'EOF':
        return expectation.inside ?? 'the end of the sheet';
      case '}':
        return expectation.inside === undefined ? '`}`' : `${expectation.inside} or \`}\``;
      default:
        return `\`${fault.message}\``;
    }
  }
  if (fault.name === 'NotAllInputParsedException') return expectations.Sheet?.inside ?? 'the end';
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
