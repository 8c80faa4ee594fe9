import type { State, Test } from '@quarrel/model';

/** What a test is asked of: the value of a condition or a state. */
export type Look = (subject: string) => string | number | undefined;

/** How `test` may come out: one way, or both where a part of it could not be read. */
export function outcomes(test: Test, look: Look): readonly boolean[] {
  switch (test.kind) {
    case 'is': {
      const value = look(test.subject);
      return [test.values.some((one) => one === value) !== test.negated];
    }
    case 'compare':
    case 'between':
      return [compares(test, look)];
    case 'not':
      return outcomes(test.test, look).map((outcome) => !outcome);
    case 'and':
      return joined(test.tests, look, (a, b) => a && b, true);
    case 'or':
      return joined(test.tests, look, (a, b) => a || b, false);
    case 'always':
      return [true];
    case 'unknown':
      return [true, false];
  }
}

function compares(test: Extract<Test, { kind: 'compare' | 'between' }>, look: Look): boolean {
  const value = look(test.subject);
  if (typeof value !== 'number') return false;
  if (test.kind === 'between') return value >= test.low.si && value <= test.high.si;
  switch (test.comparison) {
    case 'below':
      return value < test.quantity.si;
    case 'at-most':
      return value <= test.quantity.si;
    case 'equal':
      return value === test.quantity.si;
    case 'at-least':
      return value >= test.quantity.si;
    case 'above':
      return value > test.quantity.si;
  }
}

function joined(
  tests: readonly Test[],
  look: Look,
  join: (a: boolean, b: boolean) => boolean,
  start: boolean,
): readonly boolean[] {
  let ways = [start];
  for (const test of tests) {
    const next = outcomes(test, look);
    ways = [...new Set(ways.flatMap((way) => next.map((outcome) => join(way, outcome))))];
  }
  return ways;
}

/** The same question without any `not` before a bracket. */
export function pushedInwards(test: Test): Test {
  if (test.kind === 'and' || test.kind === 'or') return { ...test, tests: test.tests.map(pushedInwards) };
  if (test.kind !== 'not') return test;
  const inner = test.test;
  switch (inner.kind) {
    case 'not':
      return pushedInwards(inner.test);
    case 'is':
      return { ...inner, negated: !inner.negated };
    case 'and':
    case 'or': {
      const tests = inner.tests.map((one) => pushedInwards({ kind: 'not', test: one, range: inner.range }));
      return { ...inner, kind: inner.kind === 'and' ? 'or' : 'and', tests };
    }
    default:
      return test;
  }
}

export type StateValues = Readonly<Record<string, string>>;

/**
 * The states after a need that is not met has been mended. `test` has no `not` before a bracket; `look` answers for
 * conditions only.
 */
export function mended(test: Test, values: StateValues, states: readonly State[], look: Look): StateValues {
  // A part that could not be read came out wrong here, and nothing mends it.
  const meets = (part: Test, now: StateValues): boolean =>
    !outcomes(part, (subject) => now[subject] ?? look(subject)).includes(false);
  if (meets(test, values)) return values;
  switch (test.kind) {
    case 'is': {
      const state = states.find((one) => one.name === test.subject);
      if (state === undefined) return values;
      const value = test.negated
        ? state.values.map((one) => one.name).find((name) => !test.values.includes(name))
        : test.values[0];
      return value === undefined ? values : { ...values, [state.name]: value };
    }
    case 'and':
      return test.tests.reduce((now, part) => mended(part, now, states, look), values);
    case 'or':
      for (const part of test.tests) {
        const now = mended(part, values, states, look);
        if (meets(part, now)) return now;
      }
      return values;
    default:
      return values;
  }
}
