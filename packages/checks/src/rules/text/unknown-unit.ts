import { units } from '@quarrel/model';
import { writeInstead } from '../../mends/text.js';
import type { TextRule } from '../../rule.js';
import { anyOf } from '../../words.js';

/** A unit that the language does not have. */
export const unknownUnit: TextRule<'unknown-unit'> = {
  name: 'unknown-unit',
  family: 'text',
  severity: 'error',
  title: 'A unit that the language does not have',
  word: ({ range, unit, candidates }) => ({
    range,
    message: `"${unit}" is not a unit.`,
    advice:
      candidates.length === 0
        ? `Units are ${anyOf(units.map(({ name }) => name))}.`
        : `Did you mean ${anyOf(candidates.slice(0, 3))}?`,
    mends: () => writeInstead(range, candidates.slice(0, 3)),
  }),
};
