import type { Axis, Region, Situations } from '@quarrel/analysis';
import type { Condition, Procedure, Scenario } from '@quarrel/model';
import type { Declined, Picked, SituationShown } from './picked.js';
import type { Ground } from './pictured.js';
import { inWords, supposeOf } from './suppose.js';

/** What is left of some picks where each that cannot be with the ones before it is passed over. */
export interface Kept {
  readonly picked: Picked;
  /** Where they hold, inside of what is covered. */
  readonly region: Region;
  readonly declined: readonly string[];
}

export function keepPossible({ situations, covered }: Ground, picked: Picked): Kept {
  const kept: Record<string, string | number> = {};
  const declined: string[] = [];
  let region = covered;
  for (const [name, value] of Object.entries(picked)) {
    const level = situations.levelOf(name);
    const axis = level === undefined ? undefined : situations.axes[level];
    // A name of an earlier version of the sheet, or a value of another kind.
    if (level === undefined || axis === undefined || typeof value !== kindOfValue[axis.kind]) continue;
    const cell = cellOf(axis, value);
    const narrowed =
      cell < 0
        ? situations.store.nowhere
        : situations.store.and(region, situations.store.cells(level, new Set([cell])));
    if (narrowed === situations.store.nowhere) {
      declined.push(name);
    } else {
      region = narrowed;
      kept[name] = value;
    }
  }
  return { picked: kept, region, declined };
}

const kindOfValue = { observation: 'string', reading: 'number' } as const;

/** Where a value stands on an axis; -1 for one it cannot have. */
export function cellOf(axis: Axis, value: string | number): number {
  if (axis.kind === 'observation') return axis.values.indexOf(`${value}`);
  return axis.cells.findIndex(({ low, lowIncluded, high, highIncluded }) => {
    const si = Number(value);
    return (si > low || (si === low && lowIncluded)) && (si < high || (si === high && highIncluded));
  });
}

/** The situation that one would think of first, of those that have what is picked; `undefined` where none is covered. */
export function completed(situations: Situations, { picked, region }: Kept): Scenario | undefined {
  const typical = situations.typical(region);
  return typical === undefined ? undefined : { ...typical, ...picked };
}

export function situationShown(
  procedure: Procedure,
  scenario: Scenario,
  declined: readonly Declined[] = [],
): SituationShown {
  return { picked: scenario, declined, suppose: supposeOf(scenario, procedure) };
}

/** What was picked in vain, beside what was taken; without `taken` the condition was left open. */
export function declinedShown(
  names: readonly string[],
  picked: Picked,
  conditions: readonly Condition[],
  taken?: Scenario,
): readonly Declined[] {
  return conditions.flatMap((condition) => {
    const value = picked[condition.name];
    if (value === undefined || !names.includes(condition.name)) return [];
    const instead = taken?.[condition.name];
    return [
      {
        condition: condition.label,
        picked: inWords(condition, value),
        ...(instead === undefined ? {} : { taken: inWords(condition, instead) }),
      },
    ];
  });
}
