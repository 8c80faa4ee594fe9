import { atActs } from '../../at-acts.js';
import type { DeclaredRule } from '../../rule.js';

/** `no A after B`: stands at the step that does A. */
export const absence: DeclaredRule = {
  pattern: 'absence',
  *run(rule, work) {
    if (rule.pattern.kind !== 'absence') return;
    const { act, after } = rule.pattern;
    yield* atActs(rule, act, work, (record) => record.mayHaveDone(after), {
      message: `"${act}" is done here, though "${after}" may have been done before.`,
      advice: `Leave ${act} out in these situations, or do it before ${after}.`,
    });
  },
};
