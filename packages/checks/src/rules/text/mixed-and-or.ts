import type { SourceRange } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { insertAfter, insertBefore } from '../../mends/text.js';
import type { TextRule } from '../../rule.js';

/** `and` beside `or` without brackets. */
export const mixedAndOr: TextRule<'mixed-and-or'> = {
  name: 'mixed-and-or',
  family: 'text',
  severity: 'error',
  title: '"and" beside "or" without brackets',
  word: ({ range, text, andParts, orParts }) => ({
    range,
    message: `"${text}" can be read in two ways: "and" stands beside "or" without brackets.`,
    because: 'English does not say which comes first, and a technician pays for the wrong reading.',
    advice: 'Put brackets round the parts that belong together.',
    mends: () => [...bracketed('and', andParts), ...bracketed('or', orParts)],
  }),
};

function bracketed(word: 'and' | 'or', parts: readonly SourceRange[]): readonly Mend[] {
  if (parts.length === 0) return [];
  const edits = parts.flatMap((part) => [insertBefore(part, '('), insertAfter(part, ')')]);
  return [{ title: `Put brackets round what "${word}" joins`, edits }];
}
