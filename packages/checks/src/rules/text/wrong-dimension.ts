import { unitsOf } from '@quarrel/model';
import type { TextRule } from '../../rule.js';
import { anyOf, dimensionInWords } from '../../words.js';

/** A quantity of another kind than what it is for. */
export const wrongDimension: TextRule<'wrong-dimension'> = {
  name: 'wrong-dimension',
  family: 'text',
  severity: 'error',
  title: 'A quantity of another kind than what it is for',
  word: ({ range, text, expected, found, purpose }) => ({
    range,
    message: `"${text}" is ${dimensionInWords(found)}, but ${purpose} is ${anyOf(expected.map(dimensionInWords))}.`,
    advice: `Write it in ${anyOf(expected.flatMap((one) => unitsOf(one).map((unit) => unit.name)))}.`,
  }),
};
