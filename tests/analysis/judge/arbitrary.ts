import type { Procedure } from '@quarrel/model';
import fc from 'fast-check';
import { build } from './build.js';
import type {
  ActDraft,
  CheckDraft,
  ChoiceDraft,
  EffectDraft,
  FlowDraft,
  RuleDraft,
  SetDraft,
  SpanDraft,
  StepDraft,
  TestDraft,
} from './draft.js';
import { sketch } from './sketch.js';

/** What the procedures may contain. */
export interface Contents {
  readonly repeats: boolean;
  /** Whether rules are among it. */
  readonly rules: boolean;
}

/** Any procedure small enough to be walked through situation by situation. */
export function procedures(contents: Contents = { repeats: true, rules: true }): fc.Arbitrary<Procedure> {
  return fc
    .record({
      observations: fc.array(fc.integer({ min: 2, max: 4 }), { minLength: 1, maxLength: 4 }),
      readings: fc.nat({ max: 2 }),
      states: fc.array(fc.integer({ min: 2, max: 3 }), { minLength: 1, maxLength: 3 }),
      covers: fc.oneof(
        { weight: 2, arbitrary: fc.constant([]) },
        { weight: 1, arbitrary: fc.array(conditionTest, { maxLength: 2 }) },
      ),
      acts: fc.array(act, { minLength: 2, maxLength: 6 }),
      rules: contents.rules ? fc.array(rule, { minLength: 1, maxLength: 4 }) : fc.constant([]),
      choices: fc.array(choice, { maxLength: 2 }),
      cautions: sometimes(50, fc.nat({ max: 1 })).map((hazard) => (hazard === undefined ? [] : [hazard])),
      body: block(contents, 3, { minLength: 2, maxLength: 6 }),
    })
    .map((draft) => readable(build(draft)));
}

/** The procedure, which fast-check prints as a sketch where it fails. */
function readable(procedure: Procedure): Procedure {
  return Object.defineProperty(procedure, fc.toStringMethod, { value: () => `\n${sketch(procedure)}\n` });
}

/** A value in so many of a hundred cases, else nothing. */
function sometimes<T>(percent: number, values: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> {
  return fc.oneof({ weight: 100 - percent, arbitrary: fc.constant(undefined) }, { weight: percent, arbitrary: values });
}

/** True less often than not: a procedure that always stops shows nothing. */
const seldom = sometimes(25, fc.constant(true)).map((is) => is === true);

const pick = fc.nat({ max: 5 });
/** The first acts more often, so that a rule meets the acts that are done. */
const pickAct = fc.oneof({ weight: 3, arbitrary: fc.nat({ max: 1 }) }, { weight: 2, arbitrary: pick });
const values = fc.array(fc.nat({ max: 3 }), { minLength: 1, maxLength: 2 });

const conditionLeaf: fc.Arbitrary<TestDraft> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('is'), subject: pick, values, negated: fc.boolean() }) },
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant('compare'),
      subject: pick,
      comparison: fc.constantFrom('below', 'at-most', 'equal', 'at-least', 'above'),
      value: pick,
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('between'), subject: pick, low: pick, high: pick }) },
);

const stateLeaf: fc.Arbitrary<TestDraft> = fc.record({
  kind: fc.constant('state'),
  subject: pick,
  values,
  negated: fc.boolean(),
});

const always: fc.Arbitrary<TestDraft> = fc.constant({ kind: 'always' });
const unreadable: fc.Arbitrary<TestDraft> = fc.constant({ kind: 'unknown' });

function tests(leaf: fc.Arbitrary<TestDraft>, depth: number): fc.Arbitrary<TestDraft> {
  if (depth === 0) return leaf;
  const inner = tests(leaf, depth - 1);
  const inners = fc.array(inner, { minLength: 2, maxLength: 3 });
  return fc.oneof(
    { weight: 5, arbitrary: leaf },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('not'), test: inner }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('and'), tests: inners }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('or'), tests: inners }) },
  );
}

const conditionTest = tests(conditionLeaf, 2);
/** Now and then a test that could not be read. */
const whenTest = fc.oneof(
  { weight: 12, arbitrary: conditionTest },
  { weight: 1, arbitrary: always },
  { weight: 2, arbitrary: tests(fc.oneof(conditionLeaf, unreadable), 1) },
);
const stateTest = fc.oneof(
  { weight: 3, arbitrary: stateLeaf },
  { weight: 2, arbitrary: tests(stateLeaf, 2) },
  { weight: 1, arbitrary: tests(fc.oneof(stateLeaf, conditionLeaf), 2) },
);

const set: fc.Arbitrary<SetDraft> = fc.record({ state: fc.nat({ max: 2 }), value: fc.nat({ max: 2 }) });

const act: fc.Arbitrary<ActDraft> = fc.record({
  needs: fc.array(stateTest, { maxLength: 2 }),
  makes: fc.array(set, { maxLength: 2 }),
  raises: fc.array(fc.nat({ max: 1 }), { maxLength: 1 }),
});

const rule: fc.Arbitrary<RuleDraft> = fc.record({
  pattern: fc.constantFrom('precedence', 'response', 'response', 'absence', 'final', 'hold'),
  severity: fc.constantFrom('error', 'warning'),
  a: pickAct,
  b: pickAct,
  test: stateTest,
  bound: fc.constantFrom('at-least', 'at-most'),
  seconds: fc.integer({ min: 1, max: 6 }),
  bounded: fc.boolean(),
  when: sometimes(40, conditionTest),
});

const choice: fc.Arbitrary<ChoiceDraft> = fc.record({
  cases: fc.array(fc.record({ test: conditionTest, thing: fc.nat({ max: 2 }) }), { minLength: 1, maxLength: 3 }),
  otherwise: sometimes(30, fc.nat({ max: 2 })),
});

const span: fc.Arbitrary<SpanDraft> = fc.record({
  least: sometimes(80, fc.nat({ max: 5 })),
  more: sometimes(85, fc.nat({ max: 3 })),
});

const check: fc.Arbitrary<CheckDraft> = fc.record({
  kind: fc.constant('check'),
  confirms: sometimes(50, set),
  orElseStop: seldom,
});

const effect: fc.Arbitrary<EffectDraft> = fc.oneof(
  { weight: 8, arbitrary: fc.record({ kind: fc.constant('act'), act: pickAct }) },
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant('look'),
      condition: pick,
      accept: sometimes(50, fc.record({ low: sometimes(70, pick), high: sometimes(70, pick) })),
      orElseStop: fc.boolean(),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constant('with'), thing: fc.nat({ max: 2 }), isChoice: fc.boolean() }),
  },
  { weight: 1, arbitrary: check },
);

type Length = { readonly minLength?: number; readonly maxLength: number };

function block(contents: Contents, depth: number, length: Length): fc.Arbitrary<readonly FlowDraft[]> {
  return fc.array(flow(contents, depth), length);
}

function flow(contents: Contents, depth: number): fc.Arbitrary<FlowDraft> {
  const steps = step(contents, depth);
  if (depth === 0) return steps;
  const body = block(contents, depth - 1, { maxLength: 3 });
  const branching: fc.Arbitrary<FlowDraft> = fc.record({
    kind: fc.constant('when'),
    cases: fc.array(fc.record({ test: whenTest, body }), { minLength: 1, maxLength: 3 }),
    otherwise: sometimes(50, body),
  });
  const repeating: fc.Arbitrary<FlowDraft> = fc.record({
    kind: fc.constant('repeat'),
    atMost: sometimes(75, fc.integer({ min: 1, max: 4 })),
    confirms: sometimes(50, set),
    body,
    orElseStop: seldom,
  });
  return fc.oneof(
    { weight: 12, arbitrary: steps },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('stage'), body }) },
    { weight: 5, arbitrary: branching },
    { weight: contents.repeats ? 3 : 0, arbitrary: repeating },
    { weight: 1, arbitrary: fc.constant<FlowDraft>({ kind: 'stop' }) },
  );
}

function step(contents: Contents, depth: number): fc.Arbitrary<StepDraft> {
  return fc.record({
    kind: fc.constant('step'),
    cautions: fc.array(fc.nat({ max: 1 }), { maxLength: 1 }),
    effects: fc.array(effect, { maxLength: 3 }),
    takes: sometimes(50, span),
    hold: sometimes(50, span),
    meanwhile: depth === 0 ? fc.constant(undefined) : sometimes(20, block(contents, depth - 1, { maxLength: 2 })),
    checks: fc.array(check, { maxLength: 1 }),
  });
}
