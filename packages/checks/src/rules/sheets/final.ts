import type { Region } from '@quarrel/analysis';
import type { Pattern, Test } from '@quarrel/model';
import { grounds, whereAsked } from '../../at-acts.js';
import type { Mend } from '../../finding.js';
import { mendsByMaking } from '../../mends/make.js';
import { addAtEnd, type Written } from '../../mends/parts.js';
import type { DeclaredRule, Work } from '../../rule.js';
import { isUncertain } from '../../tests.js';
import { anyOf, testInWords } from '../../words.js';
import { isSomewhere } from '../../work.js';

/** `at the end TEST`: stands at the procedure's name. */
export const final: DeclaredRule = {
  pattern: 'final',
  *run(rule, work) {
    const question = work.asked.finals.get(rule.name);
    const unmet = question === undefined ? undefined : work.run.end.unmet[question];
    if (rule.pattern.kind !== 'final' || unmet === undefined || isUncertain(rule.pattern.test)) return;
    const region = whereAsked(rule, unmet, work);
    if (!isSomewhere(work, region)) return;
    yield {
      ...grounds(rule),
      range: work.procedure.range,
      message: `The work can end ${ending(rule.pattern.test, region, work)}.`,
      advice: 'See to it before the end, or stop in these situations.',
      mends: () => endedOtherwise(rule.pattern, region, work),
      where: { region, reached: work.run.end.moment.reached, before: work.steps.length },
    };
  },
};

/** How it can end instead: `with pit raw, where it has to be polished`. */
function ending(test: Test, region: Region, work: Work): string {
  const state =
    test.kind === 'is' ? work.procedure.vocabulary.states.find(({ name }) => name === test.subject) : undefined;
  if (test.kind !== 'is' || state === undefined) return `though this is not so: ${testInWords(test)}`;
  const possible = work.run.situations.values(work.run.end.moment.state(test.subject), region);
  const values = new Set(possible.flatMap(({ value }) => [...value]));
  const wrong = state.values
    .map(({ name }) => name)
    .filter((name) => values.has(name) && test.values.includes(name) === test.negated);
  const found = `with ${test.subject} ${anyOf(wrong)}`;
  return test.negated ? `${found}, which it must not be` : `${found}, where it has to be ${anyOf(test.values)}`;
}

function endedOtherwise(pattern: Pattern, region: Region, work: Work): readonly Mend[] {
  if (pattern.kind !== 'final') return [];
  const spot = {
    words: 'at the end',
    moment: work.run.end.moment,
    changing: new Set<string>(),
    put: (written: Written) => addAtEnd(work.procedure, written),
  };
  return mendsByMaking({ tests: [pattern.test], kept: [], region }, spot, work);
}
