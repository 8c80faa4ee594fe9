import type { Moment, Region } from '@quarrel/analysis';
import { type Act, type Step, subjectsOf, type Test } from '@quarrel/model';
import type { Work } from '../rule.js';
import { partsOf } from '../tests.js';
import { isSomewhere } from '../work.js';

/** What a state is to be made, by name of the state. */
export type Made = ReadonlyMap<string, string>;

/** What has to be so, in which situations, and at which moment of the work states can still be made for it. */
export interface Wish {
  /** What is not so yet. */
  readonly tests: readonly Test[];
  /** What is so and has to stay so. */
  readonly kept: readonly Test[];
  readonly region: Region;
  readonly moment: Moment;
}

/**
 * Acts that make a wish true when they are done at its moment, the most fitting first: those whose own needs are met there, then
 * those that take the work the least way on.
 */
export function makersOf(wish: Wish, work: Work): readonly Act[] {
  return work.procedure.vocabulary.acts
    .map((act) => ({ act, isReady: isReady(act, wish, work), way: wayOn(act, work) }))
    .filter(({ act, isReady }) => act.makes.length > 0 && comesTrue(wish, act, isReady, work))
    .sort((a, b) => Number(b.isReady) - Number(a.isReady) || a.way - b.way)
    .map(({ act }) => act);
}

/** A value asked of a state that no act makes, and that would make a wish true if it were confirmed at its moment. */
export function confirmable(wish: Wish, work: Work): { readonly state: string; readonly value: string } | undefined {
  const { states, acts } = work.procedure.vocabulary;
  const asked = wish.tests.flatMap(partsOf).flatMap((part) => (part.kind === 'is' && !part.negated ? [part] : []));
  for (const state of states) {
    // What a state starts with is not come back to by looking.
    for (const { name: value } of state.values.slice(1)) {
      if (!asked.some(({ subject, values }) => subject === state.name && values.includes(value))) continue;
      const isMade = acts.some(({ makes }) => makes.some((made) => made.state === state.name && made.value === value));
      if (!isMade && holdsAll(wish, new Map([[state.name, value]]), new Set(), work))
        return { state: state.name, value };
    }
  }
  return undefined;
}

/** Whether an effect of the step before the one at `index` changes a state that the test asks about. */
export function changesBefore(step: Step, index: number, test: Test, work: Work): boolean {
  const asked = new Set(subjectsOf(test));
  return step.effects.slice(0, index).some((effect) => {
    if (effect.kind === 'act') return actNamed(effect.act, work)?.makes.some(({ state }) => asked.has(state)) ?? false;
    return effect.kind === 'check' && effect.confirms !== undefined && asked.has(effect.confirms.state);
  });
}

export function actNamed(name: string, work: Work): Act | undefined {
  return work.procedure.vocabulary.acts.find((act) => act.name === name);
}

function isReady(act: Act, { region, moment }: Wish, work: Work): boolean {
  return act.needs.every(({ test }) => holdsWith(test, new Map(), new Set(), region, moment, work));
}

function comesTrue(wish: Wish, act: Act, isReady: boolean, work: Work): boolean {
  const made = new Map(act.makes.map(({ state, value }) => [state, value]));
  // What an act needs and does not find is put right before it, in a way that nobody knows here.
  const open = new Set(isReady ? [] : act.needs.flatMap((need) => subjectsOf(need.test)));
  return holdsAll(wish, made, open, work);
}

function holdsAll({ tests, kept, region, moment }: Wish, made: Made, open: ReadonlySet<string>, work: Work): boolean {
  const touched = kept.filter((test) => subjectsOf(test).some((state) => made.has(state) || open.has(state)));
  return [...tests, ...touched].every((test) => holdsWith(test, made, open, region, moment, work));
}

/** Whether a test surely holds all over a region of a moment, once some states are made; nothing is known of `open` ones. */
function holdsWith(
  test: Test,
  made: Made,
  open: ReadonlySet<string>,
  region: Region,
  moment: Moment,
  work: Work,
): boolean {
  const holds = (part: Test): boolean => holdsWith(part, made, open, region, moment, work);
  switch (test.kind) {
    case 'and':
      return test.tests.every(holds);
    case 'or':
      return test.tests.some(holds);
    case 'always':
      return true;
    case 'unknown':
    case 'not':
      return false;
    case 'compare':
    case 'between':
      return holdsAllOver(test, region, work);
    case 'is': {
      const isState = work.procedure.vocabulary.states.some(({ name }) => name === test.subject);
      if (!isState) return holdsAllOver(test, region, work);
      const value = made.get(test.subject);
      const isAllowed = (one: string): boolean => test.values.includes(one) !== test.negated;
      if (value !== undefined) return isAllowed(value);
      const possible = work.run.situations
        .distinct(moment.state(test.subject), region)
        .flatMap((values) => [...values]);
      return !open.has(test.subject) && possible.every(isAllowed);
    }
  }
}

function holdsAllOver(test: Test, region: Region, work: Work): boolean {
  const { situations } = work.run;
  return !isSomewhere(work, situations.store.and(region, situations.region(test).fails));
}

/** How far on in its states an act takes the work. */
function wayOn(act: Act, work: Work): number {
  const { states } = work.procedure.vocabulary;
  const ways = act.makes.map(({ state, value }) => {
    const values = states.find(({ name }) => name === state)?.values ?? [];
    return values.findIndex(({ name }) => name === value);
  });
  return ways.reduce((sum, way) => sum + way, 0);
}
