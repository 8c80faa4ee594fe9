import type { CaseRecord } from '@quarrel/analysis';
import type { WhenCase } from '@quarrel/model';
import type { PlacedWhen } from './layout.js';
import type { Work } from './rule.js';
import { isUncertain } from './tests.js';

/** A case of a `when` with what the run says of it. */
export interface Taken {
  readonly placed: PlacedWhen;
  readonly index: number;
  readonly case: WhenCase;
  readonly record: CaseRecord;
  /** Nothing stands behind it: no further case, no `otherwise`. */
  readonly isLast: boolean;
}

/**
 * Cases that take all that comes to them. The last case of several with nothing behind it may: whoever spells out every
 * case has a right to.
 */
export function alwaysTrueCases(work: Work): readonly Taken[] {
  const { nowhere } = work.run.situations.store;
  return casesOf(work).filter(
    ({ index, record, isLast }) =>
      !record.free && record.asked !== nowhere && record.holds === record.asked && (index === 0 || !isLast),
  );
}

/**
 * Cases that take nothing, though their `when` is reached; not those that only stand behind a case that takes everything, of
 * which that one is reported.
 */
export function neverTrueCases(work: Work): readonly Taken[] {
  const { nowhere } = work.run.situations.store;
  const emptied = new Map(
    alwaysTrueCases(work).map(({ placed, index }) => [placed.number, placed.firstCase + index] as const),
  );
  return casesOf(work).filter(({ placed, index, record }) => {
    const isReached = work.run.cases[placed.firstCase]?.asked !== nowhere;
    const isBehind = placed.firstCase + index > (emptied.get(placed.number) ?? Number.POSITIVE_INFINITY);
    return isReached && !isBehind && record.holds === nowhere;
  });
}

function casesOf(work: Work): readonly Taken[] {
  return work.layout.whens.flatMap((placed) =>
    placed.part.cases.flatMap((one, index) => {
      const record = work.run.cases[placed.firstCase + index];
      const isLast = index === placed.part.cases.length - 1 && placed.part.otherwise === undefined;
      return record === undefined || isUncertain(one.test) ? [] : [{ placed, index, case: one, record, isLast }];
    }),
  );
}
