import type { TextRule } from '../../rule.js';

/** What the parser could not read; it says itself what it expected. */
export const syntax: TextRule<'syntax'> = {
  name: 'syntax',
  family: 'text',
  severity: 'error',
  title: 'Something that the language cannot read',
  word: ({ range, message }) => ({ range, message }),
};
