import type { Procedure, Test } from '@quarrel/model';
import { flowIn } from '@quarrel/model';
import { Outgrown } from '../diagram/store.js';
import { actsUsed } from '../situations/axes.js';
import type { Questions } from './questions.js';
import { statesOf, statesTogether } from './state-test.js';

/** A set of values as bits: bit `i` is set where the value numbered `i` is possible. */
export type Bits = bigint;

/** One state inside the number that stands for all the states of its track. */
export interface StatePlace {
  readonly track: number;
  readonly stride: number;
  readonly values: readonly string[];
}

/**
 * What a run remembers besides the situation: tracks, each with one number as its value. States that are asked about together
 * share a track; every act asked about and every hazard raised has one of its own, 0 before and 1 after.
 */
export interface Layout {
  readonly trackCount: number;
  /** How many values each track has. */
  readonly sizes: readonly number[];
  readonly states: ReadonlyMap<string, StatePlace>;
  readonly acts: ReadonlyMap<string, number>;
  readonly hazards: ReadonlyMap<string, number>;
}

/** The most values that states asked about together may have between them. */
const largestTrack = 4096;

/** Throws `Outgrown` where more states are asked about together than can be followed. */
export function layoutOf(procedure: Procedure, questions: Questions): Layout {
  const states = new Map<string, StatePlace>();
  const sizes: number[] = [];
  for (const group of groupsOf(procedure, questions)) {
    let stride = 1;
    for (const name of group) {
      const values = procedure.vocabulary.states.find((state) => state.name === name)?.values ?? [];
      states.set(name, { track: sizes.length, stride, values: values.map((value) => value.name) });
      stride *= Math.max(1, values.length);
    }
    if (stride > largestTrack) throw new Outgrown([], group);
    sizes.push(stride);
  }
  const flags = (names: Iterable<string>): ReadonlyMap<string, number> =>
    new Map([...new Set(names)].map((name) => [name, sizes.push(2) - 1]));
  const acts = flags(questions.acts);
  const hazards = flags(hazardsOf(procedure));
  return { trackCount: sizes.length, sizes, states, acts, hazards };
}

/** The states that the procedure's acts and ends speak of, those asked about together in one group. */
function groupsOf(procedure: Procedure, questions: Questions): readonly (readonly string[])[] {
  const acts = actsUsed(procedure);
  const known = new Set(procedure.vocabulary.states.map((state) => state.name));
  const tests: readonly Test[] = [...acts.flatMap((act) => act.needs.map((need) => need.test)), ...questions.finals];
  const groups = new Map<string, Set<string>>();
  const add = (names: readonly string[]): void => {
    const joined = new Set(names.flatMap((name) => [...(groups.get(name) ?? [name])]));
    for (const name of joined) groups.set(name, joined);
  };
  for (const state of procedure.vocabulary.states) {
    if (isSpokenOf(procedure, state.name, tests)) add([state.name]);
  }
  for (const names of tests.flatMap((test) => statesTogether(test, known))) add(names);
  return [...new Set(groups.values())].map((group) => [...group]);
}

function isSpokenOf(procedure: Procedure, state: string, tests: readonly Test[]): boolean {
  return (
    tests.some((test) => statesOf(test, new Set([state])).length > 0) ||
    actsUsed(procedure).some((act) => act.makes.some((made) => made.state === state)) ||
    confirmedStates(procedure).has(state)
  );
}

function confirmedStates(procedure: Procedure): ReadonlySet<string> {
  const confirmed = new Set<string>();
  for (const part of flowIn(procedure.body)) {
    if (part.kind === 'repeat' && part.confirms !== undefined) confirmed.add(part.confirms.state);
    if (part.kind !== 'step') continue;
    for (const effect of part.effects) {
      if (effect.kind === 'check' && effect.confirms !== undefined) confirmed.add(effect.confirms.state);
    }
  }
  return confirmed;
}

function hazardsOf(procedure: Procedure): Iterable<string> {
  return actsUsed(procedure).flatMap((act) => act.raises);
}

/** The value of a state inside its track's number. */
export function valueAt(place: StatePlace, index: number): string {
  return place.values[Math.floor(index / place.stride) % place.values.length] ?? '';
}

/** The track's number with one state set to a value; the same number for a value the state does not have. */
export function withValue(place: StatePlace, index: number, value: string): number {
  const now = Math.floor(index / place.stride) % place.values.length;
  const next = place.values.indexOf(value);
  return next < 0 ? index : index + (next - now) * place.stride;
}
