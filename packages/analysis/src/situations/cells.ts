import { type Comparison, fromSi, type Quantity, type Reading, type Span, unitNamed } from '@quarrel/model';

/** A stretch of a reading's range in which every test of a procedure comes out the same. SI values. */
export interface Cell {
  readonly low: number;
  readonly lowIncluded: boolean;
  readonly high: number;
  readonly highIncluded: boolean;
  /** Both ends as the sheet writes them. */
  readonly lowText: string;
  readonly highText: string;
}

/** Where a reading's range is cut: just below a value, or just above it. */
export interface Cut {
  readonly at: number;
  /** The value as the sheet writes it. */
  readonly text: string;
  readonly side: 'below' | 'above';
}

/** The cuts that a comparison needs to be told apart. */
export function cutsOfComparison(comparison: Comparison, value: Quantity): readonly Cut[] {
  switch (comparison) {
    case 'below':
    case 'at-least':
      return [cutAt(value, 'below')];
    case 'above':
    case 'at-most':
      return [cutAt(value, 'above')];
    case 'equal':
      return [cutAt(value, 'below'), cutAt(value, 'above')];
  }
}

/** The cuts that a span, both ends included, needs. */
export function cutsOfSpan(span: Pick<Span, 'least' | 'most'>): readonly Cut[] {
  return [
    ...(span.least === undefined ? [] : [cutAt(span.least, 'below')]),
    ...(span.most === undefined ? [] : [cutAt(span.most, 'above')]),
  ];
}

function cutAt(value: Quantity, side: Cut['side']): Cut {
  return { at: value.si, text: value.text, side };
}

/** The cells of a reading, in rising order: its range divided at every cut inside it. */
export function cellsOf(reading: Reading, cuts: readonly Cut[]): readonly Cell[] {
  const [from, to] = [reading.low.si, reading.high.si];
  const inside = cuts
    .filter((cut) => (cut.side === 'below' ? cut.at > from && cut.at <= to : cut.at >= from && cut.at < to))
    .sort(inOrder);
  const cells: Cell[] = [];
  let start = { low: from, lowIncluded: true, lowText: reading.low.text };
  for (const cut of inside) {
    if (cut.at === start.low && (cut.side === 'below') === start.lowIncluded) continue;
    cells.push({ ...start, high: cut.at, highIncluded: cut.side === 'above', highText: cut.text });
    start = { low: cut.at, lowIncluded: cut.side === 'below', lowText: cut.text };
  }
  cells.push({ ...start, high: to, highIncluded: true, highText: reading.high.text });
  return cells;
}

function inOrder(a: Cut, b: Cut): number {
  return a.at - b.at || Number(a.side === 'above') - Number(b.side === 'above');
}

/** Whether the comparison holds in the cell; the cell has to be cut at its value. */
export function cellSatisfies(cell: Cell, comparison: Comparison, value: number): boolean {
  switch (comparison) {
    case 'below':
      return cell.high < value || (cell.high === value && !cell.highIncluded);
    case 'at-most':
      return cell.high <= value;
    case 'above':
      return cell.low > value || (cell.low === value && !cell.lowIncluded);
    case 'at-least':
      return cell.low >= value;
    case 'equal':
      return cell.low === value && cell.high === value;
  }
}

/** Whether all of the cell lies in the span; the cell has to be cut at its ends. */
export function cellWithin(cell: Cell, span: Pick<Span, 'least' | 'most'>): boolean {
  return (
    (span.least === undefined || cellSatisfies(cell, 'at-least', span.least.si)) &&
    (span.most === undefined || cellSatisfies(cell, 'at-most', span.most.si))
  );
}

/** Whether a value, in SI, lies in the cell. */
export function cellContains(cell: Cell, value: number): boolean {
  return (
    (value > cell.low || (value === cell.low && cell.lowIncluded)) &&
    (value < cell.high || (value === cell.high && cell.highIncluded))
  );
}

/**
 * A value of the cell, in SI, that a person would name: the roundest one near the middle, as its unit is read.
 */
export function typicalValue(cell: Cell, unitOf: Quantity): number {
  if (cell.low === cell.high) return cell.low;
  const unit = unitNamed(unitOf.unit);
  if (unit === undefined) return (cell.low + cell.high) / 2;
  const low = fromSi(cell.low, unit);
  const high = fromSi(cell.high, unit);
  const middle = (low + high) / 2;
  for (const grain of [100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01]) {
    if (grain > (high - low) / 2) continue;
    const value = Number((Math.round(middle / grain) * grain).toPrecision(10));
    const si = Number(((value + (unit.offset ?? 0)) * unit.factor).toPrecision(12));
    if (cellContains(cell, si)) return si;
  }
  return (cell.low + cell.high) / 2;
}
