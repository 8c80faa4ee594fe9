import type { ActRecord, ChoiceRecord, Region, ThingRecord } from '@quarrel/analysis';
import type { Choice, Step } from '@quarrel/model';
import type { Draft, Ran, Work } from './rule.js';
import { isUncertain } from './tests.js';

/** A step that takes a choice in hand. */
export interface Use {
  readonly step: Step;
  readonly number: number;
  readonly thing: ThingRecord;
  readonly record: ChoiceRecord;
}

/** The uses of a choice that some run comes to, in program order; none for a choice of which a test could not be read. */
export function usesOf(choice: Choice, work: Work): readonly Use[] {
  if (choice.cases.some((one) => isUncertain(one.test))) return [];
  return work.steps.flatMap((step, number) =>
    (work.run.steps[number]?.things ?? []).flatMap((thing) => {
      const record = thing.choice;
      const isOf = record !== undefined && work.procedure.choices[record.choice] === choice;
      return isOf && thing.reached !== work.run.situations.store.nowhere ? [{ step, number, thing, record }] : [];
    }),
  );
}

/** Where one of some things is so. */
export function union(work: Ran, regions: Iterable<Region>): Region {
  const { store } = work.run.situations;
  let joined = store.nowhere;
  for (const region of regions) joined = store.or(joined, region);
  return joined;
}

/** Whether there is such a situation. */
export function isSomewhere(work: Ran, region: Region): boolean {
  return region !== work.run.situations.store.nowhere;
}

/** Where acts of one step are at fault, beside where they are done at all: one finding speaks for all of them. */
export function whereAtStep(
  work: Work,
  number: number,
  faults: readonly { readonly record: ActRecord; readonly region: Region }[],
): NonNullable<Draft['where']> {
  return {
    region: union(
      work,
      faults.map(({ region }) => region),
    ),
    reached: union(
      work,
      faults.map(({ record }) => record.reached),
    ),
    before: number,
  };
}
