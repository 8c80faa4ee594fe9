import type {
  Act,
  Block,
  Caution,
  Choice,
  Effect,
  Hazard,
  Observation,
  Procedure,
  Quantity,
  Reading,
  Repeat,
  SourceRange,
  Span,
  State,
  Step,
  Test,
  Thing,
  ThingKind,
  Unit,
  Vocabulary,
  When,
} from '@quarrel/model';
import { toSi, unitNamed } from '@quarrel/model';

/** Model data by hand, as short as it can be said; places in the sheet do not matter to a checklist. */

export const nowhere: SourceRange = {
  uri: 'file:///hand-made.quarrel',
  start: { line: 0, column: 0 },
  end: { line: 0, column: 0 },
};

function unit(name: string): Unit {
  const found = unitNamed(name);
  if (found === undefined) throw new RangeError(`no unit is called ${name}`);
  return found;
}

/** `q(4, 'drops')`. */
export function q(value: number, unitName: string): Quantity {
  const { dimension, name } = unit(unitName);
  const word = value === 1 && (name === 'drops' || name === 'pieces') ? name.slice(0, -1) : name;
  return { dimension, si: toSi(value, unit(unitName)), text: `${value} ${word}`, unit: name, range: nowhere };
}

/** `span(1, 2, 'min')`; an end can be left open. */
export function span(least: number | undefined, most: number | undefined, unitName: string): Span {
  return {
    ...(least === undefined ? {} : { least: q(least, unitName) }),
    ...(most === undefined ? {} : { most: q(most, unitName) }),
    range: nowhere,
  };
}

export function is(subject: string, ...values: string[]): Test {
  return { kind: 'is', subject, values, negated: false, range: nowhere };
}

export function isNot(subject: string, ...values: string[]): Test {
  return { kind: 'is', subject, values, negated: true, range: nowhere };
}

export function between(subject: string, low: number, high: number, unitName: string): Test {
  return { kind: 'between', subject, low: q(low, unitName), high: q(high, unitName), range: nowhere };
}

export function compare(
  subject: string,
  comparison: Extract<Test, { kind: 'compare' }>['comparison'],
  value: number,
  unitName: string,
): Test {
  return { kind: 'compare', subject, comparison, quantity: q(value, unitName), range: nowhere };
}

export function all(...tests: Test[]): Test {
  return { kind: 'and', tests, range: nowhere };
}

export function any(...tests: Test[]): Test {
  return { kind: 'or', tests, range: nowhere };
}

export function not(test: Test): Test {
  return { kind: 'not', test, range: nowhere };
}

const named = (name: string, label = name) => ({ name, label, range: nowhere });

export function observation(name: string, label: string, values: Readonly<Record<string, string>>): Observation {
  const list = Object.entries(values).map(([value, words]) => named(value, words));
  return { kind: 'observation', ...named(name, label), values: list };
}

export function reading(name: string, label: string, low: number, high: number, unitName: string): Reading {
  const { dimension } = unit(unitName);
  return { kind: 'reading', ...named(name, label), dimension, low: q(low, unitName), high: q(high, unitName) };
}

export function state(name: string, ...values: string[]): State {
  return { kind: 'state', ...named(name), values: values.map((value) => named(value)) };
}

export function hazard(
  name: string,
  label: string,
  signal: Hazard['signal'],
  measures: Hazard['measures'],
  source?: string,
): Hazard {
  return { kind: 'hazard', ...named(name, label), signal, measures, ...(source === undefined ? {} : { source }) };
}

export function act(name: string, label: string, more: Partial<Pick<Act, 'makes' | 'raises'>> = {}): Act {
  return { kind: 'act', ...named(name, label), needs: [], makes: [], raises: [], ...more };
}

export function thing(kind: ThingKind, name: string, label: string): Thing {
  return { kind, ...named(name, label), properties: [] };
}

export function choice(
  thingKind: ThingKind,
  name: string,
  cases: readonly [Test, string][],
  otherwise?: string,
): Choice {
  return {
    kind: 'choice',
    ...named(name),
    thingKind,
    cases: cases.map(([test, one]) => ({ test, thing: one, range: nowhere })),
    ...(otherwise === undefined ? {} : { otherwise: { name: otherwise, range: nowhere } }),
  };
}

export const effect = {
  act: (name: string): Effect => ({ kind: 'act', act: name, range: nowhere }),
  observe: (condition: string): Effect => ({ kind: 'observe', condition, range: nowhere }),
  read: (condition: string, accept?: Span, orElseStop?: string): Effect => ({
    kind: 'read',
    condition,
    ...(accept === undefined ? {} : { accept: { span: accept, ...(orElseStop === undefined ? {} : { orElseStop }) } }),
    range: nowhere,
  }),
  take: (name: string, amount?: Span): Effect => ({
    kind: 'with',
    thing: name,
    isChoice: false,
    ...(amount === undefined ? {} : { amount }),
    range: nowhere,
  }),
  choose: (name: string, amount?: Span): Effect => ({
    kind: 'with',
    thing: name,
    isChoice: true,
    ...(amount === undefined ? {} : { amount }),
    range: nowhere,
  }),
  check: (text: string, orElseStop?: string): Effect => ({
    kind: 'check',
    text,
    ...(orElseStop === undefined ? {} : { orElseStop }),
    range: nowhere,
  }),
  meanwhile: (...body: Block[number][]): Effect => ({ kind: 'meanwhile', body, range: nowhere }),
};

type StepMore = Partial<Pick<Step, 'effects' | 'takes' | 'hold' | 'cautions' | 'notes' | 'photos' | 'documentation'>>;

export function step(id: string, text: string, more: StepMore = {}): Step {
  return {
    kind: 'step',
    id,
    text,
    effects: [],
    cautions: [],
    notes: [],
    photos: [],
    waivers: [],
    range: nowhere,
    ...more,
  };
}

export function stage(label: string, ...body: Block[number][]): Block[number] {
  return { kind: 'stage', label, body, range: nowhere };
}

export function when(cases: readonly [Test, Block][], otherwise?: Block): When {
  return {
    kind: 'when',
    cases: cases.map(([test, body]) => ({ test, body, range: nowhere })),
    ...(otherwise === undefined ? {} : { otherwise }),
    range: nowhere,
  };
}

export function repeat(body: Block, more: Partial<Pick<Repeat, 'atMost' | 'until' | 'orElseStop'>> = {}): Repeat {
  return { kind: 'repeat', body, range: nowhere, ...more };
}

export function stop(reason: string): Block[number] {
  return { kind: 'stop', reason, range: nowhere };
}

export function cautionOf(name: string): Caution {
  return { kind: 'hazard', hazard: name, range: nowhere };
}

export function cautionText(text: string): Caution {
  return { kind: 'text', text, range: nowhere };
}

const emptyVocabulary: Vocabulary = {
  observations: [],
  readings: [],
  states: [],
  hazards: [],
  acts: [],
  rules: [],
  things: [],
  limits: [],
  assumptions: [],
};

type ProcedureMore = Partial<Omit<Procedure, 'kind' | 'name' | 'label' | 'body' | 'vocabulary'>> & {
  readonly vocabulary?: Partial<Vocabulary>;
};

export function procedure(name: string, label: string, body: Block, more: ProcedureMore = {}): Procedure {
  const { vocabulary, ...rest } = more;
  return {
    kind: 'procedure',
    ...named(name, label),
    uri: nowhere.uri,
    covers: [],
    within: [],
    cautions: [],
    waivers: [],
    choices: [],
    body,
    ...rest,
    vocabulary: { ...emptyVocabulary, ...vocabulary },
  };
}
