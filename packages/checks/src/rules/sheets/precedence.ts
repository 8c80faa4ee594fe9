import { atActs, type StepFault } from '../../at-acts.js';
import type { Mend } from '../../finding.js';
import { mendByDoing, spotBefore } from '../../mends/make.js';
import { actNamed } from '../../mends/makers.js';
import type { DeclaredRule, Work } from '../../rule.js';

/** `A comes before B`: stands at the step that does B. */
export const precedence: DeclaredRule = {
  pattern: 'precedence',
  *run(rule, work) {
    if (rule.pattern.kind !== 'precedence') return;
    const { first, later } = rule.pattern;
    yield* atActs(rule, later, work, (record) => record.mayNotHaveDone(first), {
      message: `"${later}" is done here, and "${first}" may not have been done before.`,
      advice: `Do ${first} in an earlier step in these situations too.`,
      mends: (fault) => doneBefore(first, fault, work),
    });
  },
};

function doneBefore(first: string, { step, number, region, changing }: StepFault, work: Work): readonly Mend[] {
  const act = actNamed(first, work);
  const spot = spotBefore(step, number, changing, work);
  return act === undefined || spot === undefined ? [] : mendByDoing(act, region, spot, work);
}
