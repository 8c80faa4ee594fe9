import type { Scenario } from '@quarrel/model';
import type { ByScenario, Region } from '../diagram/diagram.js';
import { type Axis, sizeOf } from './axes.js';
import { typicalValue } from './cells.js';
import type { Situations } from './situations.js';

/**
 * A situation that a person would think of first: for an observation the value declared first, for a reading a round value
 * of the widest stretch, each as far as the region allows.
 */
export function typicalScenario(situations: Situations, region: Region): Scenario | undefined {
  const { store, axes } = situations;
  if (region === store.nowhere) return undefined;
  const scenario: Record<string, string | number> = {};
  let node: ByScenario<boolean> = region;
  for (const [level, axis] of axes.entries()) {
    const here: ByScenario<boolean> = node;
    const childOf = (cell: number): ByScenario<boolean> | undefined =>
      here.kind === 'branch' && here.level === level ? here.children[cell] : here;
    const cell = byPreference(axis).find((one) => childOf(one) !== store.nowhere) ?? 0;
    node = childOf(cell) ?? here;
    const value = valueOfCell(situations, axis, cell);
    if (value !== undefined) scenario[axis.name] = value;
  }
  return scenario;
}

/** The cells of an axis, the most typical first. */
function byPreference(axis: Axis): readonly number[] {
  const cells = Array.from({ length: sizeOf(axis) }, (_, cell) => cell);
  if (axis.kind === 'observation') return cells;
  const width = (cell: number): number => (axis.cells[cell]?.high ?? 0) - (axis.cells[cell]?.low ?? 0);
  return cells.sort((a, b) => width(b) - width(a) || a - b);
}

function valueOfCell(situations: Situations, axis: Axis, cell: number): string | number | undefined {
  if (axis.kind === 'observation') return axis.values[cell];
  const reading = situations.procedure.vocabulary.readings.find((one) => one.name === axis.name);
  const stretch = axis.cells[cell];
  return reading === undefined || stretch === undefined ? undefined : typicalValue(stretch, reading.low);
}
