import { insertAfter, insertBefore } from '../../mends.js';
import type { TextRule } from '../../rule.js';

/** `and` beside `or` without brackets. */
export const mixedAndOr: TextRule<'mixed-and-or'> = {
  name: 'mixed-and-or',
  family: 'text',
  severity: 'error',
  title: '"and" beside "or" without brackets',
  word: ({ range, text, andParts }) => ({
    range,
    message: `"${text}" can be read in two ways: "and" stands beside "or" without brackets.`,
    because: 'English does not say which comes first, and a technician pays for the wrong reading.',
    advice: 'Put brackets round the parts that belong together.',
    mends:
      andParts.length === 0
        ? []
        : [
            {
              title: 'Put brackets round what "and" joins',
              edits: andParts.flatMap((part) => [insertBefore(part, '('), insertAfter(part, ')')]),
            },
          ],
  }),
};
