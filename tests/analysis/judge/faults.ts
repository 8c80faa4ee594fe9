import type { Act, Block, Effect, Flow, Procedure, Span, Step, Test } from '@quarrel/model';
import type { Facts } from './facts.js';

/** An engine that errs in one way: it follows a procedure that says something slightly else. */
export interface Fault {
  readonly what: string;
  /** Whether it shows in what is reached and unmet where there are no repeats, so that z3 has to see it too. */
  readonly flow: boolean;
  readonly wrong: (procedure: Procedure) => Procedure;
}

export const faults: readonly Fault[] = [
  {
    what: 'takes `below` for `at most`',
    flow: true,
    wrong: (procedure) => withTests(procedure, (test) => (isBelow(test) ? { ...test, comparison: 'at-most' } : test)),
  },
  {
    what: 'takes `is not` for `is` where a need asks for a state',
    flow: true,
    wrong: (procedure) =>
      withActs(procedure, (act) => ({
        ...act,
        needs: act.needs.map((need) => ({
          ...need,
          test: changed(need.test, (test) => (test.kind === 'is' ? { ...test, negated: false } : test)),
        })),
      })),
  },
  {
    what: 'makes one pass too few',
    flow: false,
    wrong: (procedure) =>
      withFlows(procedure, (flow) =>
        flow.kind === 'repeat' && flow.atMost !== undefined && flow.atMost > 1
          ? { ...flow, atMost: flow.atMost - 1 }
          : flow,
      ),
  },
  {
    what: 'lets everything pass that a reading does not accept',
    flow: true,
    wrong: (procedure) =>
      withEffects(procedure, (effect) => {
        if (effect.kind !== 'read' || effect.accept === undefined) return effect;
        return { ...effect, accept: { span: effect.accept.span } };
      }),
  },
  {
    what: 'applies what acts make in the wrong order',
    flow: true,
    wrong: (procedure) => withActs(procedure, (act) => ({ ...act, makes: [...act.makes].reverse() })),
  },
  {
    what: 'begins what is done meanwhile when the hold is over',
    flow: false,
    wrong: (procedure) => withFlows(procedure, (flow) => (flow.kind === 'step' ? holdFirst(flow) : flow)),
  },
  {
    what: 'gives an answer one second more than its rule',
    flow: false,
    wrong: withLongerRules,
  },
  {
    what: 'looks at the situation only where it is first asked, never at what was read again',
    flow: true,
    wrong: (procedure) =>
      withEffects(procedure, (effect) => (effect.kind === 'observe' ? nothingSeen(effect) : effect)),
  },
];

function isBelow(test: Test): test is Extract<Test, { kind: 'compare' }> {
  return test.kind === 'compare' && test.comparison === 'below';
}

function nothingSeen({ range }: Effect): Effect {
  return { kind: 'check', text: 'nothing', range };
}

function holdFirst(step: Step): Step {
  const { hold, ...rest } = step;
  return step.effects.some((effect) => effect.kind === 'meanwhile') ? { ...rest, ...sum(step.takes, hold) } : step;
}

function sum(takes: Span | undefined, hold: Span | undefined): { readonly takes?: Span } {
  if (takes === undefined) return hold === undefined ? {} : { takes: hold };
  if (hold === undefined) return { takes };
  const add = (end: 'least' | 'most') => {
    const [a, b] = [takes[end], hold[end]];
    if (end === 'most' && (a === undefined || b === undefined)) return {};
    return a === undefined ? (b === undefined ? {} : { [end]: b }) : { [end]: { ...a, si: a.si + (b?.si ?? 0) } };
  };
  return { takes: { ...add('least'), ...add('most'), range: takes.range } };
}

function withLongerRules(procedure: Procedure): Procedure {
  const rules = procedure.vocabulary.rules.map((rule) => {
    const { pattern } = rule;
    if (pattern.kind !== 'response' || pattern.within === undefined) return rule;
    return { ...rule, pattern: { ...pattern, within: { ...pattern.within, si: pattern.within.si + 1 } } };
  });
  return { ...procedure, vocabulary: { ...procedure.vocabulary, rules } };
}

function withActs(procedure: Procedure, change: (act: Act) => Act): Procedure {
  return { ...procedure, vocabulary: { ...procedure.vocabulary, acts: procedure.vocabulary.acts.map(change) } };
}

function withTests(procedure: Procedure, change: (test: Test) => Test): Procedure {
  const flows = withFlows(procedure, (flow) =>
    flow.kind === 'when'
      ? { ...flow, cases: flow.cases.map((one) => ({ ...one, test: changed(one.test, change) })) }
      : flow,
  );
  return {
    ...flows,
    choices: procedure.choices.map((choice) => ({
      ...choice,
      cases: choice.cases.map((one) => ({ ...one, test: changed(one.test, change) })),
    })),
  };
}

function changed(test: Test, change: (test: Test) => Test): Test {
  switch (test.kind) {
    case 'not':
      return { ...test, test: changed(test.test, change) };
    case 'and':
    case 'or':
      return { ...test, tests: test.tests.map((part) => changed(part, change)) };
    default:
      return change(test);
  }
}

function withEffects(procedure: Procedure, change: (effect: Effect) => Effect): Procedure {
  return withFlows(procedure, (flow) => (flow.kind === 'step' ? { ...flow, effects: flow.effects.map(change) } : flow));
}

function withFlows(procedure: Procedure, change: (flow: Flow) => Flow): Procedure {
  const block = (flows: Block): Block => flows.map((flow) => change(inner(flow)));
  const inner = (flow: Flow): Flow => {
    switch (flow.kind) {
      case 'stage':
      case 'repeat':
        return { ...flow, body: block(flow.body) };
      case 'when':
        return {
          ...flow,
          cases: flow.cases.map((one) => ({ ...one, body: block(one.body) })),
          ...(flow.otherwise === undefined ? {} : { otherwise: block(flow.otherwise) }),
        };
      case 'step':
        return {
          ...flow,
          effects: flow.effects.map((effect) =>
            effect.kind === 'meanwhile' ? { ...effect, body: block(effect.body) } : effect,
          ),
        };
      case 'stop':
        return flow;
    }
  };
  return { ...procedure, body: block(procedure.body) };
}

/** Every way to be wrong about one record in one situation. */
export function* oneOff(facts: Facts): Generator<{ readonly line: string; readonly facts: Facts }> {
  for (const [line, cells] of facts.where) {
    const [first, ...others] = cells;
    if (first !== undefined)
      yield { line, facts: { ...facts, where: new Map(facts.where).set(line, new Set(others)) } };
  }
  for (const [line, clock] of facts.clocks) {
    const [first] = clock;
    if (first === undefined) continue;
    const [cell, { least, most }] = first;
    const wrong = new Map(clock).set(cell, { least, most: most + 1 });
    if (most !== Number.POSITIVE_INFINITY) {
      yield { line, facts: { ...facts, clocks: new Map(facts.clocks).set(line, wrong) } };
    }
  }
  for (const [line, { least, most }] of facts.spans) {
    yield { line, facts: { ...facts, spans: new Map(facts.spans).set(line, { least: least + 1, most }) } };
  }
}
