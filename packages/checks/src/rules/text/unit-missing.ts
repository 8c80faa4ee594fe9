import { type Dimension, unitsOf } from '@quarrel/model';
import { insertAfter } from '../../mends/text.js';
import type { TextRule } from '../../rule.js';
import { anyOf } from '../../words.js';

/** The unit a workshop reaches for first, which is offered first. */
const usual: Readonly<Record<Dimension, string>> = {
  temperature: '°C',
  length: 'mm',
  time: 's',
  pressure: 'kPa',
  viscosity: 'mPa·s',
  irradiance: 'mW/cm²',
  dose: 'J/cm²',
  'surface-tension': 'mN/m',
  ratio: '%',
  volume: 'ml',
  drops: 'drops',
  pieces: 'pieces',
};

/** A number that does not say of what. */
export const unitMissing: TextRule<'unit-missing'> = {
  name: 'unit-missing',
  family: 'text',
  severity: 'error',
  title: 'A number without a unit',
  word: ({ range, text, expected, purpose }) => {
    const legal = anyOf(expected.flatMap((one) => unitsOf(one).map((unit) => unit.name)));
    return {
      range,
      message: `"${text}" has no unit, and ${purpose} needs one.`,
      because: 'A number without a unit is read as seconds by one and as minutes by the next.',
      advice: `Write ${legal === '' ? 'a unit' : legal} behind it.`,
      mends: () =>
        expected.flatMap(fitting).map((unit) => ({
          title: `Write ${text} ${unit}`,
          edits: [insertAfter(range, ` ${unit}`)],
        })),
    };
  },
};

/** The units of a dimension, the usual one first. */
function fitting(dimension: Dimension): readonly string[] {
  return [...new Set([usual[dimension], ...unitsOf(dimension).map(({ name }) => name)])];
}
