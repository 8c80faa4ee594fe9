import type { When } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { takeOut } from '../../mends/text.js';
import type { Draft, FlowRule, Work } from '../../rule.js';
import { neverTrueCases } from '../../taken.js';
import { testInWords } from '../../words.js';

/** A case that no situation takes, and `covers` that no job fits. */
export const neverTrue: FlowRule = {
  name: 'never-true',
  family: 'flow',
  severity: 'warning',
  title: 'A test that no situation meets',
  *run(work) {
    yield* ofCovers(work);
    for (const { placed, index, case: one, record } of neverTrueCases(work)) {
      const { nowhere } = work.run.situations.store;
      const first = work.run.cases[placed.firstCase] ?? record;
      const asked = record.asked === nowhere ? first.asked : record.asked;
      yield {
        range: one.test.range,
        message:
          record.asked === nowhere
            ? `No situation is left for "${testInWords(one.test)}": the cases before it take all of them.`
            : `No situation that comes here has "${testInWords(one.test)}": this case is never taken.`,
        because: 'What stands in it looks like a rule of the house and is never done.',
        advice:
          index === 0
            ? 'Widen what is covered, correct the test, or take the case away.'
            : 'Correct this test or one before it, or take the case away.',
        mends: () => withoutCase(placed.part, index),
        where: { region: asked, reached: asked, before: placed.before },
      };
    }
  },
};

/** A procedure that covers nothing would pass every other rule. */
function* ofCovers(work: Work): Iterable<Draft> {
  const { procedure, run } = work;
  if (run.covered !== run.situations.store.nowhere) return;
  yield {
    range: procedure.coversRange ?? procedure.range,
    severity: 'error',
    message: 'No job meets all lines of "covers" together: the procedure covers nothing.',
    because: 'Nothing can be found wrong with a procedure that is never done.',
    advice: 'Correct the line that shuts out what the others let in.',
  };
}

/** Nothing is offered for a first case with only `otherwise` behind it, which would have to stand further out. */
function withoutCase({ cut, cases, otherwise }: When, index: number): readonly Mend[] {
  const title = 'Take the case away';
  const own = cases[index]?.whole;
  const before = cases[index - 1]?.whole;
  const behind = cases[index + 1]?.whole;
  if (own === undefined) return [];
  if (before !== undefined) return takeOut(title, { ...own, start: before.end, end: own.end });
  if (behind !== undefined) return takeOut(title, { ...own, start: own.start, end: behind.start });
  return otherwise === undefined ? takeOut(title, cut) : [];
}
