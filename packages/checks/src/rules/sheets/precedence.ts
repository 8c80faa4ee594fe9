import { atActs } from '../../at-acts.js';
import type { DeclaredRule } from '../../rule.js';

/** `A comes before B`: stands at the step that does B. */
export const precedence: DeclaredRule = {
  pattern: 'precedence',
  *run(rule, work) {
    if (rule.pattern.kind !== 'precedence') return;
    const { first, later } = rule.pattern;
    yield* atActs(rule, later, work, (record) => record.mayNotHaveDone(first), {
      message: `"${later}" is done here, and "${first}" may not have been done before.`,
      advice: `Do ${first} in an earlier step in these situations too.`,
    });
  },
};
