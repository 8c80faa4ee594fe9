import type { TextRule } from '../../rule.js';
import { withArticle } from '../../words.js';

/** Two things of one group with one name. */
export const nameClash: TextRule<'name-clash'> = {
  name: 'name-clash',
  family: 'text',
  severity: 'error',
  title: 'Two things with one name',
  word: ({ range, name, what, other }) => ({
    range,
    message: `There is already ${withArticle(what)} called "${name}".`,
    because: 'A name that stands for two things lets a sheet say something its author does not see.',
    advice: 'Give one of the two another name.',
    related: [{ message: `the other "${name}"`, range: other }],
  }),
};
