import type {
  Act,
  Block,
  Choice,
  Comparison,
  Effect,
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
  When,
} from '@quarrel/model';

/** Procedures written down by hand, as short as they can be said. */

const range: SourceRange = {
  uri: 'file:///by-hand.quarrel',
  start: { line: 0, column: 0 },
  end: { line: 0, column: 1 },
};

function declared<K extends string>(kind: K, name: string) {
  return { kind, name, label: name, range };
}

const valuesOf = (names: readonly string[]) => names.map((name) => ({ name, label: name, range }));

export function observation(name: string, ...values: string[]): Observation {
  return { ...declared('observation', name), values: valuesOf(values) };
}

/** A reading in kelvin. */
export function reading(name: string, low: number, high: number): Reading {
  return { ...declared('reading', name), dimension: 'temperature', low: kelvin(low), high: kelvin(high) };
}

export function state(name: string, ...values: string[]): State {
  return { ...declared('state', name), values: valuesOf(values) };
}

export function kelvin(si: number): Quantity {
  return { dimension: 'temperature', si, text: `${si} K`, unit: 'K', range };
}

export function seconds(si: number): Quantity {
  return { dimension: 'time', si, text: `${si} s`, unit: 's', range };
}

/** `undefined` leaves an end open. */
export function span(least: number | undefined, most: number | undefined): Span {
  return {
    ...(least === undefined ? {} : { least: seconds(least) }),
    ...(most === undefined ? {} : { most: seconds(most) }),
    range,
  };
}

export function is(subject: string, ...values: string[]): Test {
  return { kind: 'is', subject, values, negated: false, range };
}

export function isNot(subject: string, ...values: string[]): Test {
  return { kind: 'is', subject, values, negated: true, range };
}

export function compare(subject: string, comparison: Comparison, value: number): Test {
  return { kind: 'compare', subject, comparison, quantity: kelvin(value), range };
}

export function between(subject: string, low: number, high: number): Test {
  return { kind: 'between', subject, low: kelvin(low), high: kelvin(high), range };
}

export function and(...tests: Test[]): Test {
  return { kind: 'and', tests, range };
}

export function or(...tests: Test[]): Test {
  return { kind: 'or', tests, range };
}

export function not(test: Test): Test {
  return { kind: 'not', test, range };
}

export const unreadable: Test = { kind: 'unknown', range };

export function becomes(of: string, value: string): StateValue {
  return { state: of, value, range };
}

export function act(
  name: string,
  { needs = [], makes = [], raises = [] }: { needs?: Test[]; makes?: StateValue[]; raises?: string[] } = {},
): Act {
  return { ...declared('act', name), needs: needs.map((test) => ({ test, range })), makes, raises };
}

export function rule(name: string, pattern: Pattern, when?: Test): Rule {
  return { ...declared('rule', name), severity: 'error', pattern, ...(when === undefined ? {} : { when }) };
}

export function choose(name: string, cases: readonly (readonly [Test, string])[], otherwise?: string): Choice {
  return {
    ...declared('choice', name),
    thingKind: 'resin',
    cases: cases.map(([test, thing]) => ({ test, thing, range })),
    ...(otherwise === undefined ? {} : { otherwise: { name: otherwise, range } }),
  };
}

export function doing(name: string): Effect {
  return { kind: 'act', act: name, range };
}

export function observing(condition: string): Effect {
  return { kind: 'observe', condition, range };
}

export function readingOf(condition: string, accept?: { low?: number; high?: number; stop?: boolean }): Effect {
  if (accept === undefined) return { kind: 'read', condition, range };
  const accepted: Span = {
    ...(accept.low === undefined ? {} : { least: kelvin(accept.low) }),
    ...(accept.high === undefined ? {} : { most: kelvin(accept.high) }),
    range,
  };
  const stop = accept.stop === true ? { orElseStop: 'out of range' } : {};
  return { kind: 'read', condition, accept: { span: accepted, ...stop }, range };
}

export function taking(choice: string): Effect {
  return { kind: 'with', thing: choice, isChoice: true, range };
}

export function checking({ confirms, stop = false }: { confirms?: StateValue; stop?: boolean } = {}): Effect {
  return {
    kind: 'check',
    text: 'seen',
    ...(confirms === undefined ? {} : { confirms }),
    ...(stop ? { orElseStop: 'not seen' } : {}),
    range,
  };
}

export function meanwhile(...body: Block): Effect {
  return { kind: 'meanwhile', body, range };
}

export function step(
  effects: readonly Effect[],
  { takes, hold, caution }: { takes?: Span; hold?: Span; caution?: string } = {},
): Step {
  return {
    kind: 'step',
    id: 'step',
    text: 'step',
    effects,
    ...(takes === undefined ? {} : { takes }),
    ...(hold === undefined ? {} : { hold }),
    cautions: caution === undefined ? [] : [{ kind: 'hazard', hazard: caution, range }],
    notes: [],
    photos: [],
    waivers: [],
    range,
  };
}

export function when(test: Test, body: Block, otherwise?: Block): When {
  return {
    kind: 'when',
    cases: [{ test, body, range }],
    ...(otherwise === undefined ? {} : { otherwise }),
    range,
  };
}

export function repeat(
  body: Block,
  { atMost, confirms, stop = false }: { atMost?: number; confirms?: StateValue; stop?: boolean } = {},
): Block[number] {
  return {
    kind: 'repeat',
    ...(atMost === undefined ? {} : { atMost }),
    ...(confirms === undefined ? {} : { confirms }),
    body,
    ...(stop ? { orElseStop: 'the goal was not seen' } : {}),
    range,
  };
}

export const stop: Block[number] = { kind: 'stop', reason: 'stop', range };

export function procedure(parts: {
  readonly conditions: readonly (Observation | Reading)[];
  readonly states?: readonly State[];
  readonly acts?: readonly Act[];
  readonly rules?: readonly Rule[];
  readonly choices?: readonly Choice[];
  readonly covers?: readonly Test[];
  readonly body: Block;
}): Procedure {
  const { conditions, states = [], acts = [], rules = [], choices = [], covers = [], body } = parts;
  const hazards = [...new Set(acts.flatMap((one) => one.raises))];
  return {
    ...declared('procedure', 'by-hand'),
    uri: range.uri,
    covers,
    within: [],
    cautions: [],
    waivers: [],
    choices,
    body,
    vocabulary: {
      observations: conditions.filter((condition) => condition.kind === 'observation'),
      readings: conditions.filter((condition) => condition.kind === 'reading'),
      states,
      hazards: hazards.map((name) => ({ ...declared('hazard', name), signal: 'warning', measures: [] })),
      acts,
      rules,
      things: ['thin', 'thick'].map((name) => ({ ...declared('resin', name), properties: [] })),
      limits: [],
      assumptions: [],
    },
  };
}
