import type { Axis, Cell } from '@quarrel/analysis';
import { type Condition, formatSi, type Procedure, type Quantity, shortLabel, type Test } from '@quarrel/model';
import { mentionedIn } from './conditions.js';
import type { Picked } from './picked.js';

/**
 * What is picked as tests of the language, one for each condition that the procedure speaks of: `break is star`,
 * `glass-temperature is 8 °C`. Values that a condition cannot have are left out.
 */
export function supposeOf(picked: Picked, procedure: Procedure): readonly string[] {
  return mentionedIn(procedure).flatMap(({ condition }) => {
    const value = picked[condition.name];
    if (value === undefined || !canBe(condition, value)) return [];
    return [`${condition.name} is ${typeof value === 'number' ? inWords(condition, value) : value}`];
  });
}

/** Whether a condition can have a value at all, covered or not. */
export function canBe(condition: Condition, value: string | number): boolean {
  return condition.kind === 'observation'
    ? condition.values.some(({ name }) => name === value)
    : typeof value === 'number' && value >= condition.low.si && value <= condition.high.si;
}

/** The label of an observation's value, as short as tells it apart, or a reading's value with its unit. */
export function inWords(condition: Condition, value: string | number): string {
  if (condition.kind === 'reading') return typeof value === 'number' ? formatSi(value, condition.low.unit) : value;
  const found = condition.values.find(({ name }) => name === value);
  return found === undefined ? `${value}` : shortLabel(found, condition.values);
}

/** A value picked, as a test. */
export function testOf(condition: Condition, value: string | number): Test {
  const { name, range } = condition;
  if (condition.kind === 'observation')
    return { kind: 'is', subject: name, values: [`${value}`], negated: false, range };
  const si = typeof value === 'number' ? value : Number.NaN;
  return { kind: 'compare', subject: name, comparison: 'equal', quantity: quantityOf(condition.low, si), range };
}

/** One cell of an axis, as tests. */
export function testsOfCell(condition: Condition, axis: Axis, cell: number): readonly Test[] {
  if (axis.kind === 'observation') return [testOf(condition, axis.values[cell] ?? '')];
  const stretch = axis.cells[cell];
  return condition.kind === 'observation' || stretch === undefined
    ? []
    : testsOfStretch(condition.low, stretch, axis.name);
}

function testsOfStretch(unitOf: Quantity, cell: Cell, subject: string): readonly Test[] {
  const { range } = unitOf;
  const end = (si: number): Quantity => quantityOf(unitOf, si);
  return [
    { kind: 'compare', subject, comparison: cell.lowIncluded ? 'at-least' : 'above', quantity: end(cell.low), range },
    { kind: 'compare', subject, comparison: cell.highIncluded ? 'at-most' : 'below', quantity: end(cell.high), range },
  ];
}

function quantityOf({ dimension, unit, range }: Quantity, si: number): Quantity {
  return { dimension, unit, si, text: formatSi(si, unit), range };
}
