import {
  type Dimension,
  nearest,
  type Quantity,
  type Span,
  settle,
  toSi,
  type Unit,
  unitNamed,
  units,
  unitsOf,
} from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import type { Reader } from './reader.js';
import { unitWords } from './unit-words.js';

/** What a quantity is for: its words in messages, and what it may measure; nothing said means anything. */
export interface Purpose {
  readonly words: string;
  readonly dimensions?: readonly Dimension[];
}

export const aTime = (words: string): Purpose => ({ words, dimensions: ['time'] });

/**
 * A quantity with its unit, or nothing where that cannot be told; a problem then says why. A number without a unit takes
 * `lent`, the unit of the other end of its span.
 */
export function lowerQuantity(
  node: ast.Quantity | undefined,
  purpose: Purpose,
  reader: Reader,
  lent?: Unit,
): Quantity | undefined {
  if (node === undefined || node.amounts.length === 0) return undefined;
  const range = reader.places.ofNode(node);
  const parts: { readonly value: number; readonly number: string; readonly unit: Unit }[] = [];
  for (const amount of node.amounts) {
    if (amount.number === undefined) return undefined;
    const number = amount.number.replace('−', '-').replace(',', '.');
    const unit = amount.unit === undefined ? lent : unitOf(amount, amount.unit, purpose, reader);
    if (unit === undefined) {
      if (amount.unit === undefined) {
        reader.report({
          rule: 'unit-missing',
          text: number,
          expected: parts[0] === undefined ? (purpose.dimensions ?? []) : [parts[0].unit.dimension],
          purpose: purpose.words,
          range: reader.places.ofNode(amount),
        });
      }
      return undefined;
    }
    parts.push({ value: Number(number), number, unit });
  }
  const [first] = parts;
  const last = parts.at(-1);
  if (first === undefined || last === undefined) return undefined;
  const odd = parts.findIndex(({ unit }) => unit.dimension !== first.unit.dimension);
  if (odd > 0 || (parts.length > 1 && first.unit.dimension === 'temperature')) {
    const at = Math.max(odd, 1);
    const part = parts[at] ?? last;
    const place = node.amounts[at] ?? node;
    if (odd > 0) {
      reader.report({
        rule: 'wrong-dimension',
        text: `${part.number} ${part.unit.name}`,
        expected: [first.unit.dimension],
        found: part.unit.dimension,
        purpose: purpose.words,
        range: reader.places.ofNode(place),
      });
    } else {
      reader.complain('A temperature is one number with one unit.', reader.places.ofNode(place));
    }
    return undefined;
  }
  const text = parts.map(({ number, unit }) => `${number} ${unit.name}`).join(' ');
  const { dimension } = first.unit;
  if (purpose.dimensions !== undefined && !purpose.dimensions.includes(dimension)) {
    reader.report({
      rule: 'wrong-dimension',
      text,
      expected: purpose.dimensions,
      found: dimension,
      purpose: purpose.words,
      range,
    });
    return undefined;
  }
  const si = settle(parts.reduce((sum, { value, unit }) => sum + toSi(value, unit), 0));
  return { dimension, si, text, unit: last.unit.name, range };
}

function unitOf(amount: ast.Amount, name: string, purpose: Purpose, reader: Reader): Unit | undefined {
  const unit = unitNamed(name);
  if (unit === undefined) {
    reader.report({
      rule: 'unknown-unit',
      unit: name,
      candidates: unitsLike(name, purpose.dimensions),
      range: reader.places.ofProperty(amount, 'unit'),
    });
  }
  return unit;
}

/** Units that may have been meant: what people write for a unit, or else spellings that are near. */
function unitsLike(name: string, dimensions: readonly Dimension[] | undefined): readonly string[] {
  const meant = unitWords[name.toLowerCase()];
  if (meant !== undefined) return [meant];
  const fitting = dimensions === undefined ? units : dimensions.flatMap((dimension) => unitsOf(dimension));
  const spelled = new Map(
    fitting.flatMap((unit) => [unit.name, ...(unit.spellings ?? [])].map((one) => [one, unit.name])),
  );
  return [...new Set(nearest(name, spelled.keys()).flatMap((one) => spelled.get(one) ?? []))];
}

/**
 * From `low` to `high`; `4 to 6 drops` gives the low end the unit of the high one. Nothing where an end cannot be told, as the
 * rest would say something that was not written; what is wrong with both ends is said once.
 */
export function lowerEnds(
  low: ast.Quantity | undefined,
  high: ast.Quantity | undefined,
  purpose: Purpose,
  reader: Reader,
): { readonly low: Quantity; readonly high: Quantity } | undefined {
  const isBare = low?.amounts.length === 1 && low.amounts[0]?.unit === undefined;
  if (isBare) {
    const most = lowerQuantity(high, purpose, reader);
    const least = most === undefined ? undefined : lowerQuantity(low, purpose, reader, unitNamed(most.unit));
    return least === undefined || most === undefined ? undefined : { low: least, high: most };
  }
  const least = lowerQuantity(low, purpose, reader);
  if (least === undefined) return undefined;
  const most = lowerQuantity(high, { ...purpose, dimensions: [least.dimension] }, reader);
  return most === undefined ? undefined : { low: least, high: most };
}

/** A span as it stands behind `takes`, `hold`, `accept`, `amount`; nothing where it cannot be told. */
export function lowerSpan(node: ast.Span | undefined, purpose: Purpose, reader: Reader): Span | undefined {
  if (node === undefined) return undefined;
  const range = reader.places.ofNode(node);
  if (node.bound !== undefined) {
    const limit = lowerQuantity(node.limit, purpose, reader);
    if (limit === undefined) return undefined;
    return node.bound === 'least' ? { least: limit, range } : { most: limit, range };
  }
  if (node.to) {
    const ends = lowerEnds(node.low, node.high, purpose, reader);
    return ends === undefined ? undefined : { least: ends.low, most: ends.high, range };
  }
  const exact = lowerQuantity(node.low, purpose, reader);
  return exact === undefined ? undefined : { least: exact, most: exact, range };
}
