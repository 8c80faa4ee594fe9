import type { When } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { takeOut } from '../../mends/text.js';
import type { FlowRule } from '../../rule.js';
import { alwaysTrueCases } from '../../taken.js';
import { testInWords } from '../../words.js';

/** A case that takes every situation that comes to it, though the sheet goes on as if others were left. */
export const alwaysTrue: FlowRule = {
  name: 'always-true',
  family: 'flow',
  severity: 'warning',
  title: 'A case takes every situation that comes to it',
  *run(work) {
    for (const { placed, index, case: one, record, isLast } of alwaysTrueCases(work)) {
      yield {
        range: one.test.range,
        message: isLast
          ? `"${testInWords(one.test)}" holds in every situation that comes here: it decides nothing.`
          : `"${testInWords(one.test)}" holds in every situation that comes here: nothing is left for what stands behind it.`,
        because: 'A test that decides nothing hides that the jobs it was meant to keep apart are not kept apart.',
        advice:
          index === 0
            ? 'Widen what is covered, correct the test, or take the "when" away.'
            : 'Widen what is covered, correct the test, or say "otherwise" instead.',
        mends: () => withoutRest(placed.part, index),
        where: { region: record.asked, reached: record.asked, before: placed.before },
      };
    }
  },
};

/** Behind the first case, one that takes all that is left may stand last: whoever spells out every case has a right to. */
function withoutRest({ whole, cases }: When, index: number): readonly Mend[] {
  const own = cases[index]?.whole;
  if (index === 0 || own === undefined || whole === undefined) return [];
  return takeOut('Take away what stands behind it', { ...own, start: own.end, end: whole.end });
}
