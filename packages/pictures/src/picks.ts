import { type Axis, axesOf, type Region, type Situations } from '@quarrel/analysis';
import { fromSi, type Observation, type Reading, type Scenario, shortLabel, unitNamed } from '@quarrel/model';
import type { Mentioned } from './conditions.js';
import type { NumberToPick, Threshold, ToPick, ValuesToPick } from './picked.js';
import type { Ground } from './pictured.js';

/** Conditions with what can be picked for them; `scenario` says what is taken now. */
export function picksOf(
  mentioned: readonly Mentioned[],
  { situations, covered }: Ground,
  scenario: Scenario,
): readonly ToPick[] {
  // The situations of a run are cut finer than the procedure itself asks for.
  const axes = new Map(axesOf(situations.procedure, []).map((axis) => [axis.name, axis]));
  return mentioned.map(({ condition, decides }) => {
    const value = scenario[condition.name];
    return condition.kind === 'observation'
      ? { ...ofValue(condition, situations, covered, value), decides }
      : { ...ofNumber(condition, axes.get(condition.name), value), decides };
  });
}

function ofValue(
  { name, label, values }: Observation,
  situations: Situations,
  covered: Region,
  value: string | number | undefined,
): Omit<ValuesToPick, 'decides'> {
  const { store } = situations;
  const level = situations.levelOf(name);
  const isCovered = (cell: number): boolean =>
    level !== undefined && store.and(covered, store.cells(level, new Set([cell]))) !== store.nowhere;
  return {
    kind: 'observation',
    name,
    label,
    values: values.map((one, cell) => ({ name: one.name, label: shortLabel(one, values), covered: isCovered(cell) })),
    value: `${value}`,
  };
}

function ofNumber(
  { name, label, low, high }: Reading,
  axis: Axis | undefined,
  value: string | number | undefined,
): Omit<NumberToPick, 'decides'> {
  const unit = unitNamed(low.unit);
  const shown = (si: number): number => (unit === undefined ? si : fromSi(si, unit));
  const range = shown(high.si) - shown(low.si);
  return {
    kind: 'reading',
    name,
    label,
    unit: { name: low.unit, factor: unit?.factor ?? 1, offset: unit?.offset ?? 0 },
    low: shown(low.si),
    high: shown(high.si),
    step: stepFor(range),
    value: shown(typeof value === 'number' ? value : low.si),
    thresholds: thresholdsOf(axis).map(({ si, text }) => ({ si, text, value: shown(si) })),
  };
}

/** One or five of a power of ten, so that the range has at least fifty steps. */
function stepFor(range: number): number {
  const most = range / 50;
  const power = 10 ** Math.floor(Math.log10(most));
  return Number((power * 5 <= most ? power * 5 : power).toPrecision(1));
}

function thresholdsOf(axis: Axis | undefined): readonly Omit<Threshold, 'value'>[] {
  if (axis?.kind !== 'reading') return [];
  const inner = axis.cells.slice(1).map(({ low, lowText }) => ({ si: low, text: lowText }));
  return inner.filter(({ si }, index) => inner.findIndex((other) => other.si === si) === index);
}
