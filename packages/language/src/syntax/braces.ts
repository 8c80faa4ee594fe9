import type { Token } from './tokens.js';

interface Open {
  readonly token: Token;
  /** The column of the first word on its line. */
  readonly indent: number;
}

/**
 * The `{` that most probably lacks its `}`, of all those before `end`: one whose block is left by a `}` that stands further to
 * the left than the line it began on, or else the last one that is open at the end.
 */
export function unclosedBlock(tokens: readonly Token[], end: Token): Token | undefined {
  const open: Open[] = [];
  let skipped: Token | undefined;
  for (const { token, indent, isFirst } of indented(tokens, end)) {
    if (token.image === '{') open.push({ token, indent });
    if (token.image !== '}') continue;
    while (isFirst && open.length > 1 && (open.at(-1)?.indent ?? 0) > indent) {
      const left = open.pop()?.token;
      skipped ??= left;
    }
    open.pop();
  }
  return skipped ?? open.at(-1)?.token;
}

/** The `}` that most probably is one too many, of all those up to `stray`: one that stands to the right of the line it closes. */
export function surplusBrace(tokens: readonly Token[], stray: number): Token | undefined {
  const open: Open[] = [];
  for (const { token, indent, isFirst } of indented(tokens, undefined)) {
    if (token.startOffset > stray) break;
    if (token.image === '{') open.push({ token, indent });
    if (token.image !== '}') continue;
    const closed = open.pop();
    if (closed === undefined || (isFirst && indent > closed.indent)) return token;
    if (isFirst && indent < closed.indent) return undefined;
  }
  return undefined;
}

function* indented(
  tokens: readonly Token[],
  end: Token | undefined,
): Generator<{ readonly token: Token; readonly indent: number; readonly isFirst: boolean }> {
  let line = 0;
  let indent = 0;
  for (const token of tokens) {
    if (end !== undefined && token.startOffset >= end.startOffset) return;
    const isFirst = token.startLine !== undefined && token.startLine !== line;
    if (isFirst) {
      line = token.startLine ?? line;
      indent = token.startColumn ?? 1;
    }
    yield { token, indent, isFirst };
    line = token.endLine ?? line;
  }
}
