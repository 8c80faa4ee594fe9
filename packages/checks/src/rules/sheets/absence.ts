import type { Rule } from '@quarrel/model';
import { atActs, type Said } from '../../at-acts.js';
import type { DeclaredRule } from '../../rule.js';
import { testInWords } from '../../words.js';

/** `no A after B`: stands at the step that does A. */
export const absence: DeclaredRule = {
  pattern: 'absence',
  *run(rule, work) {
    if (rule.pattern.kind !== 'absence') return;
    const { act, after } = rule.pattern;
    yield* atActs(rule, act, work, (record) => record.mayHaveDone(after), said(rule, act, after));
  },
};

/** With a `when` it is the situation that is at fault, not the order: doing it earlier would only hide the fault. */
function said({ when }: Rule, act: string, after: string): Said {
  return when === undefined
    ? {
        message: `"${act}" is done here, though "${after}" may have been done before.`,
        advice: `Leave ${act} out in these situations, or do it before ${after}.`,
      }
    : {
        message: `"${act}" must not be done after "${after}" when ${testInWords(when)}, but here it can be.`,
        advice: `Leave ${act} out in these situations, or stop before it.`,
      };
}
