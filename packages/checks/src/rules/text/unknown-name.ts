import { writeInstead } from '../../mends/text.js';
import type { TextRule } from '../../rule.js';
import { anyOf, withArticle } from '../../words.js';

/** A name that nothing visible here has. */
export const unknownName: TextRule<'unknown-name'> = {
  name: 'unknown-name',
  family: 'text',
  severity: 'error',
  title: 'A name that nothing in sight has',
  word: ({ range, name, sought, candidates }) => ({
    range,
    message: `"${name}" is not the name of ${withArticle(sought)}.`,
    advice:
      candidates.length === 0
        ? `Declare ${withArticle(sought)} of this name, or use the sheet that has it.`
        : `Did you mean ${anyOf(candidates.slice(0, 3))}?`,
    mends: () => writeInstead(range, candidates.slice(0, 3)),
  }),
};
