import type {
  Act,
  Block,
  Choice,
  Effect,
  Flow,
  Need,
  Observation,
  Pattern,
  Procedure,
  Quantity,
  Reading,
  Rule,
  SourceRange,
  Span,
  State,
  StateValue,
  Step,
  Test,
  Thing,
  Value,
} from '@quarrel/model';
import type {
  ActDraft,
  CheckDraft,
  ChoiceDraft,
  Draft,
  EffectDraft,
  FlowDraft,
  RuleDraft,
  SetDraft,
  SpanDraft,
  StepDraft,
  TestDraft,
} from './draft.js';

/** The most situations, steps, and free turns (a check, an unread test, a condition looked at) that a procedure gets. */
const most = { cells: 130, steps: 12, turns: 9 };

const nowhere: SourceRange = {
  uri: 'file:///random.quarrel',
  start: { line: 0, column: 0 },
  end: { line: 0, column: 1 },
};

/** Few values, so that ends meet; the last lies outside what the instrument reads. */
const thresholds = [0, 10, 20, 30, 10, 40];
/** Points and gaps of a reading that its few values cut. */
const cellsOfReading = 7;

const units = [
  { dimension: 'temperature', unit: 'K' },
  { dimension: 'length', unit: 'm' },
] as const;

/** A procedure of names from a draft of numbers. What goes beyond the sizes above is left out. */
export function build(draft: Draft): Procedure {
  const names = new Names(draft);
  const left = { ...most };
  const vocabulary = {
    observations: names.observations,
    readings: names.readings,
    states: names.states,
    hazards: [0, 1].map((number) => ({
      ...declared('hazard', `hazard-${number}`),
      signal: 'warning' as const,
      measures: [],
    })),
    acts: draft.acts.map((act, number) => actOf(names, act, number)),
    rules: draft.rules.map((rule, number) => ruleOf(names, rule, number)),
    things: names.things,
    limits: [],
  };
  return {
    ...declared('procedure', 'random'),
    uri: nowhere.uri,
    covers: draft.covers.map((test) => testOf(names, test, false)),
    within: [],
    cautions: cautionsOf(draft.cautions),
    waivers: [],
    choices: draft.choices.map((choice, number) => choiceOf(names, choice, number)),
    body: blockOf(names, left, draft.body),
    vocabulary,
  };
}

function declared<K extends string>(kind: K, name: string) {
  return { kind, name, label: name, range: nowhere };
}

function valuesOf(name: string, count: number): readonly Value[] {
  return Array.from({ length: count }, (_, number) => ({
    name: `${name}${number}`,
    label: `${name}${number}`,
    range: nowhere,
  }));
}

function at<T>(list: readonly T[], number: number): T {
  const found = list[number % Math.max(list.length, 1)];
  if (found === undefined) throw new RangeError('a draft names something of which there is none');
  return found;
}

/** The names there are; conditions beyond the most situations are left out. */
class Names {
  readonly observations: readonly Observation[];
  readonly readings: readonly Reading[];
  readonly states: readonly State[];
  readonly acts: readonly string[];
  readonly choices: readonly string[];
  readonly things: readonly Thing[];

  constructor(draft: Draft) {
    // The first observation is always in.
    let cells = draft.observations[0] ?? 1;
    const fits = (count: number): boolean => {
      const fitting = cells * count <= most.cells;
      if (fitting) cells *= count;
      return fitting;
    };
    this.readings = units
      .slice(0, draft.readings)
      .filter(() => fits(cellsOfReading))
      .map(({ dimension, unit }, number) => ({
        ...declared('reading', `reading-${number}`),
        dimension,
        low: { dimension, si: 0, text: `0 ${unit}`, unit, range: nowhere },
        high: { dimension, si: 30, text: `30 ${unit}`, unit, range: nowhere },
      }));
    this.observations = draft.observations
      .filter((count, number) => number === 0 || fits(count))
      .map((count, number) => ({
        ...declared('observation', `look-${number}`),
        values: valuesOf('abcd'.charAt(number), count),
      }));
    this.states = draft.states.map((count, number) => ({
      ...declared('state', `state-${number}`),
      values: valuesOf('xyz'.charAt(number), count),
    }));
    this.acts = draft.acts.map((_, number) => `act-${number}`);
    this.choices = draft.choices.map((_, number) => `choice-${number}`);
    this.things = [0, 1, 2].map((number) => ({ ...declared('resin', `thing-${number}`), properties: [] }));
  }
}

function testOf(names: Names, draft: TestDraft, states: boolean): Test {
  switch (draft.kind) {
    case 'state':
      if (!states) return isOneOf(at(names.observations, draft.subject), draft);
      return isOneOf(at(names.states, draft.subject), draft);
    case 'is':
      return isOneOf(at(names.observations, draft.subject), draft);
    case 'compare': {
      if (names.readings.length === 0) {
        const negated = draft.comparison === 'above';
        return isOneOf(at(names.observations, draft.subject), { values: [draft.value], negated });
      }
      const reading = at(names.readings, draft.subject);
      return {
        kind: 'compare',
        subject: reading.name,
        comparison: draft.comparison,
        quantity: quantityOf(reading, draft.value),
        range: nowhere,
      };
    }
    case 'between': {
      if (names.readings.length === 0) {
        return isOneOf(at(names.observations, draft.subject), { values: [draft.low, draft.high], negated: false });
      }
      const reading = at(names.readings, draft.subject);
      const [low, high] = ends(reading, draft.low, draft.high);
      return { kind: 'between', subject: reading.name, low, high, range: nowhere };
    }
    case 'not':
      return { kind: 'not', test: testOf(names, draft.test, states), range: nowhere };
    case 'and':
    case 'or':
      return { kind: draft.kind, tests: draft.tests.map((test) => testOf(names, test, states)), range: nowhere };
    case 'always':
    case 'unknown':
      return { kind: draft.kind, range: nowhere };
  }
}

function isOneOf(
  of: Observation | State,
  { values, negated }: { readonly values: readonly number[]; readonly negated: boolean },
): Test {
  const chosen = [...new Set(values.map((value) => at(of.values, value).name))];
  return { kind: 'is', subject: of.name, values: chosen, negated, range: nowhere };
}

function quantityOf(reading: Reading, threshold: number): Quantity {
  const { dimension, low } = reading;
  const si = at(thresholds, threshold);
  return { dimension, si, text: `${si} ${low.unit}`, unit: low.unit, range: nowhere };
}

function ends(reading: Reading, a: number, b: number): readonly [Quantity, Quantity] {
  const first = quantityOf(reading, a);
  const second = quantityOf(reading, b);
  return first.si <= second.si ? [first, second] : [second, first];
}

function setOf(names: Names, { state, value }: SetDraft): StateValue {
  const of = at(names.states, state);
  return { state: of.name, value: at(of.values, value).name, range: nowhere };
}

function actOf(names: Names, draft: ActDraft, number: number): Act {
  return {
    ...declared('act', `act-${number}`),
    needs: draft.needs.map((test): Need => ({ test: testOf(names, test, true), range: nowhere })),
    makes: draft.makes.map((set) => setOf(names, set)),
    raises: draft.raises.map((hazard) => `hazard-${hazard}`),
  };
}

function ruleOf(names: Names, draft: RuleDraft, number: number): Rule {
  return {
    ...declared('rule', `rule-${number}`),
    severity: draft.severity,
    pattern: patternOf(names, draft),
    ...(draft.when === undefined ? {} : { when: testOf(names, draft.when, false) }),
  };
}

function patternOf(names: Names, draft: RuleDraft): Pattern {
  const a = at(names.acts, draft.a);
  const b = at(names.acts, draft.b);
  const quantity = seconds(draft.seconds);
  switch (draft.pattern) {
    case 'precedence':
      return { kind: 'precedence', first: a, later: b };
    case 'response':
      return { kind: 'response', trigger: a, response: b, ...(draft.bounded ? { within: quantity } : {}) };
    case 'absence':
      return { kind: 'absence', act: a, after: b };
    case 'final':
      return { kind: 'final', test: testOf(names, draft.test, true) };
    case 'hold':
      return { kind: 'hold', act: a, bound: draft.bound, quantity };
  }
}

function choiceOf(names: Names, draft: ChoiceDraft, number: number): Choice {
  const { otherwise } = draft;
  return {
    ...declared('choice', `choice-${number}`),
    thingKind: 'resin',
    cases: draft.cases.map(({ test, thing }) => ({
      test: testOf(names, test, false),
      thing: at(names.things, thing).name,
      range: nowhere,
    })),
    ...(otherwise === undefined ? {} : { otherwise: { name: at(names.things, otherwise).name, range: nowhere } }),
  };
}

function cautionsOf(hazards: readonly number[]): Step['cautions'] {
  return hazards.map((hazard) => ({ kind: 'hazard', hazard: `hazard-${hazard}`, range: nowhere }));
}

function seconds(si: number): Quantity {
  return { dimension: 'time', si, text: `${si} s`, unit: 's', range: nowhere };
}

function spanOf({ least, more }: SpanDraft): Span {
  if (least === undefined) return { most: seconds(more ?? 1), range: nowhere };
  if (more === undefined) return { least: seconds(least), range: nowhere };
  return { least: seconds(least), most: seconds(least + more), range: nowhere };
}

type Left = { steps: number; turns: number };

function blockOf(names: Names, left: Left, draft: readonly FlowDraft[]): Block {
  return draft.flatMap((flow) => flowOf(names, left, flow));
}

function flowOf(names: Names, left: Left, draft: FlowDraft): readonly Flow[] {
  switch (draft.kind) {
    case 'step':
      return stepOf(names, left, draft);
    case 'stage':
      return [{ kind: 'stage', label: 'stage', body: blockOf(names, left, draft.body), range: nowhere }];
    case 'stop':
      return [{ kind: 'stop', reason: 'stop', range: nowhere }];
    case 'when':
      return [
        {
          kind: 'when',
          cases: draft.cases.map(({ test, body }) => ({
            test: testOf(names, test, false),
            body: blockOf(names, left, body),
            range: nowhere,
          })),
          ...(draft.otherwise === undefined ? {} : { otherwise: blockOf(names, left, draft.otherwise) }),
          range: nowhere,
        },
      ];
    case 'repeat':
      return [
        {
          kind: 'repeat',
          ...(draft.atMost === undefined ? {} : { atMost: draft.atMost }),
          ...(draft.confirms === undefined ? {} : { confirms: setOf(names, draft.confirms) }),
          body: blockOf(names, left, draft.body),
          ...(draft.orElseStop ? { orElseStop: 'the goal was not seen' } : {}),
          range: nowhere,
        },
      ];
  }
}

function stepOf(names: Names, left: Left, draft: StepDraft): readonly Step[] {
  if (left.steps === 0) return [];
  left.steps -= 1;
  const id = `step-${most.steps - left.steps - 1}`;
  const effects = draft.effects.flatMap((effect) => effectOf(names, left, effect));
  const meanwhile: readonly Effect[] =
    draft.meanwhile === undefined
      ? []
      : [{ kind: 'meanwhile', body: blockOf(names, left, draft.meanwhile), range: nowhere }];
  const checks = draft.checks.flatMap((check) => checkOf(names, left, check));
  return [
    {
      kind: 'step',
      id,
      text: id,
      effects: [...effects, ...meanwhile, ...checks],
      ...(draft.takes === undefined ? {} : { takes: spanOf(draft.takes) }),
      ...(draft.hold === undefined ? {} : { hold: spanOf(draft.hold) }),
      cautions: cautionsOf(draft.cautions),
      notes: [],
      photos: [],
      waivers: [],
      range: nowhere,
    },
  ];
}

function effectOf(names: Names, left: Left, draft: EffectDraft): readonly Effect[] {
  switch (draft.kind) {
    case 'act':
      return [{ kind: 'act', act: at(names.acts, draft.act), range: nowhere }];
    case 'with': {
      const isChoice = draft.isChoice && names.choices.length > 0;
      const thing = isChoice ? at(names.choices, draft.thing) : at(names.things, draft.thing).name;
      return [{ kind: 'with', thing, isChoice, range: nowhere }];
    }
    case 'check':
      return checkOf(names, left, draft);
    case 'look': {
      const condition = at([...names.observations, ...names.readings], draft.condition);
      if (condition.kind === 'observation') return [{ kind: 'observe', condition: condition.name, range: nowhere }];
      const { accept, orElseStop } = draft;
      if (accept === undefined) return [{ kind: 'read', condition: condition.name, range: nowhere }];
      const [low, high] = ends(condition, accept.low ?? 1, accept.high ?? 2);
      const span = {
        ...(accept.low === undefined ? {} : { least: low }),
        ...(accept.high === undefined ? {} : { most: high }),
        range: nowhere,
      };
      const stop = orElseStop ? { orElseStop: 'out of range' } : {};
      return [{ kind: 'read', condition: condition.name, accept: { span, ...stop }, range: nowhere }];
    }
  }
}

function checkOf(names: Names, left: Left, draft: CheckDraft): readonly Effect[] {
  if (left.turns === 0) return [];
  left.turns -= 1;
  return [
    {
      kind: 'check',
      text: 'seen',
      ...(draft.confirms === undefined ? {} : { confirms: setOf(names, draft.confirms) }),
      ...(draft.orElseStop ? { orElseStop: 'not seen' } : {}),
      range: nowhere,
    },
  ];
}
