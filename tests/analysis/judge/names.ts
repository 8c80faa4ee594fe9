import type {
  Observation,
  Quantity,
  Reading,
  SourceRange,
  State,
  StateValue,
  Test,
  Thing,
  Value,
} from '@quarrel/model';
import type { Draft, SetDraft, TestDraft } from './draft.js';

/** The most situations, steps and checks that a procedure gets. */
export const most = { cells: 130, steps: 12, checks: 9 };

export const nowhere: SourceRange = {
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

export function declared<K extends string>(kind: K, name: string) {
  return { kind, name, label: name, range: nowhere };
}

function valuesOf(name: string, count: number): readonly Value[] {
  return Array.from({ length: count }, (_, number) => ({
    name: `${name}${number}`,
    label: `${name}${number}`,
    range: nowhere,
  }));
}

export function at<T>(list: readonly T[], number: number): T {
  const found = list[number % Math.max(list.length, 1)];
  if (found === undefined) throw new RangeError('a draft names something of which there is none');
  return found;
}

/** The names there are; conditions beyond the most situations are left out. */
export class Names {
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

export function testOf(names: Names, draft: TestDraft, states: boolean): Test {
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

export function ends(reading: Reading, a: number, b: number): readonly [Quantity, Quantity] {
  const first = quantityOf(reading, a);
  const second = quantityOf(reading, b);
  return first.si <= second.si ? [first, second] : [second, first];
}

export function setOf(names: Names, { state, value }: SetDraft): StateValue {
  const of = at(names.states, state);
  return { state: of.name, value: at(of.values, value).name, range: nowhere };
}

export function seconds(si: number): Quantity {
  return { dimension: 'time', si, text: `${si} s`, unit: 's', range: nowhere };
}
