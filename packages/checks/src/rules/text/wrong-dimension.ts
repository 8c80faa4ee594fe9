import { type Dimension, unitsOf } from '@quarrel/model';
import { writeInstead } from '../../mends/text.js';
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
    mends: () => writeInstead(range, completed(text, expected)),
    advice: `Write it in ${anyOf(expected.flatMap((one) => unitsOf(one).map((unit) => unit.name)))}.`,
  }),
};

/** The quantity with the units that fit and begin as the one does that stands there: `1 min` for `1 m`. */
function completed(text: string, expected: readonly Dimension[]): readonly string[] {
  const [number, unit, ...others] = text.split(' ');
  if (unit === undefined || others.length > 0) return [];
  const meant = expected.flatMap(unitsOf).filter(({ name }) => name.startsWith(unit));
  return meant.map(({ name }) => `${number} ${name}`);
}
