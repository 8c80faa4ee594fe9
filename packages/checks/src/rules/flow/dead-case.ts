import { takeOut } from '../../mends/text.js';
import type { FlowRule, Work } from '../../rule.js';
import { isSomewhere, type Use, usesOf } from '../../work.js';

/** A case of a choice that no use of it ever takes. */
export const deadCase: FlowRule = {
  name: 'dead-case',
  family: 'flow',
  severity: 'warning',
  title: 'A case of a choice is never taken',
  *run(work) {
    for (const choice of work.procedure.choices) {
      const uses = usesOf(choice, work);
      if (uses.length === 0) continue;
      for (const [index, one] of choice.cases.entries()) {
        const clashes = uses.some(({ record }) => record.clashes.some(({ later }) => later === index));
        if (clashes || uses.some((use) => isTaken(use, index, work))) continue;
        const everHolds = uses.some(({ record }) => isSomewhere(work, record.cases[index] ?? record.rest));
        yield {
          range: one.range,
          message: everHolds
            ? `No use of "${choice.name}" takes this case: earlier cases take all its situations.`
            : `No use of "${choice.name}" takes this case: its test holds nowhere "${choice.name}" is used.`,
          because: `It reads as if ${one.thing} were taken sometimes, and it never is.`,
          advice: 'Correct its test, or take the case away.',
          mends: () => (choice.cases.length === 1 ? [] : takeOut('Take the case away', one.cut)),
        };
      }
      if (choice.otherwise === undefined || uses.some(({ record }) => isSomewhere(work, record.rest))) continue;
      yield {
        range: choice.otherwise.range,
        message: `No use of "${choice.name}" takes "otherwise": the cases before it take every situation.`,
        because: `It reads as if ${choice.otherwise.name} were taken sometimes, and it never is.`,
        advice: 'Take "otherwise" away: a situation added later is then reported instead of passing for it.',
        mends: () => takeOut('Take "otherwise" away', choice.otherwiseCut),
      };
    }
  },
};

/** Whether some situation has this case as the first that holds. */
function isTaken({ record }: Use, index: number, work: Work): boolean {
  const { store } = work.run.situations;
  let left = record.cases[index] ?? store.nowhere;
  for (const earlier of record.cases.slice(0, index)) left = store.without(left, earlier);
  return isSomewhere(work, left);
}
