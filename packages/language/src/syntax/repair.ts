import type { LexerResult } from 'langium';
import type { Token, TokenType } from './tokens.js';

/** What can stand in a step only. `caution` and `waive` also stand beside steps, but not deeper than a procedure's own block. */
const inSteps = new Set('do with takes hold observe read accept check note photo meanwhile'.split(' '));
const besideSteps = new Set(['caution', 'waive']);

/**
 * Puts in the `{` that a step lacks when one of its clauses follows its text, and reports it. Without it the `}` of the step
 * would close the block around it, and so on to the end of the sheet.
 */
export function openSteps(
  tokens: readonly Token[],
  brace: TokenType,
): { readonly tokens: Token[]; readonly faults: LexerResult['errors'] } {
  const repaired: Token[] = [];
  const faults: LexerResult['errors'] = [];
  let depth = 0;
  for (const [at, token] of tokens.entries()) {
    const { image, tokenType } = token;
    repaired.push(token);
    if (image === '{') depth += 1;
    if (image === '}') depth -= 1;
    if (tokenType.name !== 'STRING' || !followsStep(tokens, at)) continue;
    const next = tokens[at + 1];
    if (next === undefined || next.tokenType.name === 'ID') continue;
    if (!inSteps.has(next.image) && !(besideSteps.has(next.image) && depth > 1)) continue;
    repaired.push(virtual(brace, token));
    depth += 1;
    faults.push({
      offset: token.startOffset,
      line: token.startLine,
      column: token.startColumn,
      length: image.length,
      message: 'Behind the text of a step comes `{`, then what is done in it.',
    });
  }
  return { tokens: repaired, faults };
}

/** `step "…"` or `step NAME "…"`, and not the step that an example speaks of. */
function followsStep(tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1];
  const start = before?.tokenType.name === 'ID' ? at - 2 : at - 1;
  const word = tokens[start];
  return (
    word?.image === 'step' && word.tokenType.name !== 'ID' && !/^(has|lacks)$/.test(tokens[start - 1]?.image ?? '')
  );
}

function virtual(type: TokenType, behind: Token): Token {
  return {
    image: '',
    startOffset: behind.startOffset + behind.image.length,
    tokenType: type,
    tokenTypeIdx: type.tokenTypeIdx ?? 0,
    isInsertedInRecovery: true,
  };
}
