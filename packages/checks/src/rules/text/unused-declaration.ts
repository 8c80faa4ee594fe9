import { takeOut } from '../../mends/text.js';
import type { TextRule } from '../../rule.js';

/** Something declared and spoken of nowhere. */
export const unusedDeclaration: TextRule<'unused-declaration'> = {
  name: 'unused-declaration',
  family: 'text',
  severity: 'info',
  title: 'Something is declared and never used',
  word: ({ range, what, name, cut }) => ({
    range,
    message: `Nothing uses the ${what} "${name}".`,
    advice: 'Use it, or take it out.',
    mends: () => takeOut(`Take ${name} out`, cut),
  }),
};
