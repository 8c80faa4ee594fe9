import type { Axis } from '@quarrel/analysis';
import type { Condition } from '@quarrel/model';
import { inWords } from '../suppose.js';
import type { CellShown } from './coverage.js';

/** Cells of an axis from `first` to `last` as they are shown. */
export function cellShown(condition: Condition, axis: Axis, first: number, last: number): CellShown {
  if (axis.kind === 'observation' || condition.kind === 'observation') {
    const names = axis.kind === 'observation' ? axis.values.slice(first, last + 1) : [];
    return { kind: 'values', values: names.map((name) => ({ name, label: inWords(condition, name) })) };
  }
  const [low, high] = [axis.cells[first], axis.cells[last]];
  return {
    kind: 'stretch',
    low: {
      text: low?.lowText ?? condition.low.text,
      included: low?.lowIncluded ?? true,
      isRangeEnd: first === 0,
    },
    high: {
      text: high?.highText ?? condition.high.text,
      included: high?.highIncluded ?? true,
      isRangeEnd: last === axis.cells.length - 1,
    },
  };
}
