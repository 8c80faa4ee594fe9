import type { Test } from '@quarrel/model';
import { subjectsOf } from '@quarrel/model';

/** The states among the subjects of a test. */
export function statesOf(test: Test, states: ReadonlySet<string>): readonly string[] {
  return subjectsOf(test).filter((name) => states.has(name));
}

/** The same test with `not` pushed inwards until it stands only in `is not` and before comparisons. */
export function pushNotInwards(test: Test, negate: 'as it is' | 'negated' = 'as it is'): Test {
  const negated = negate === 'negated';
  switch (test.kind) {
    case 'not':
      return pushNotInwards(test.test, negated ? 'as it is' : 'negated');
    case 'and':
    case 'or':
      return {
        kind: negated === (test.kind === 'and') ? 'or' : 'and',
        tests: test.tests.map((part) => pushNotInwards(part, negate)),
        range: test.range,
      };
    case 'is':
      return negated ? { ...test, negated: !test.negated } : test;
    default:
      return negated ? { kind: 'not', test, range: test.range } : test;
  }
}

/** The parts that all have to hold, for a test with `not` pushed inwards. */
export function conjuncts(test: Test): readonly Test[] {
  return test.kind === 'and' ? test.tests.flatMap(conjuncts) : [test];
}

/** Groups of states that one part of a test asks about together. */
export function statesTogether(test: Test, states: ReadonlySet<string>): readonly (readonly string[])[] {
  return conjuncts(pushNotInwards(test))
    .map((part) => statesOf(part, states))
    .filter((names) => names.length > 1);
}
