import { fromSi, type Quantity, toSi, type Unit, unitsOf } from '@quarrel/model';
import type { Mend } from '../finding.js';

/** A converted value has no more digits than a person would write down. */
const mostDigits = 5;

/**
 * The same in each other unit in which it can be written as exactly: `50 °F` for `10 °C`, but nothing in inches for `30 mm`. Both
 * ends of a span come together, since the one may lend the other its unit: `4 to 6 min`. None for ends of two kinds.
 */
export function conversionsOf(quantities: readonly Quantity[]): readonly Mend[] {
  // An exact span has one quantity for both of its ends.
  const ends = [...new Set(quantities)];
  const [first] = ends;
  if (first === undefined || ends.some(({ dimension }) => dimension !== first.dimension)) return [];
  return unitsOf(first.dimension).flatMap((unit) => {
    const texts = ends.flatMap((end) => written(end, unit) ?? []);
    const isNew = texts.some((text, index) => text !== ends[index]?.text);
    if (texts.length < ends.length || !isNew) return [];
    const edits = ends.map(({ range }, index) => ({ range, text: texts[index] ?? '' }));
    return [{ title: `Write ${texts.join(' to ')}`, edits }];
  });
}

/** The quantity in a unit; nothing where that cannot be written exactly in a few digits. */
function written({ si }: Quantity, unit: Unit): string | undefined {
  const value = fromSi(si, unit);
  const text = String(value);
  const digits = text.replace(/^-?0?\.?0*|[-.]/g, '').length;
  return digits > mostDigits || text.includes('e') || toSi(value, unit) !== si ? undefined : `${text} ${unit.name}`;
}
