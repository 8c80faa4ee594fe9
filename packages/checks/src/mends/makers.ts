import type { Moment, Region } from '@quarrel/analysis';
import { type Act, type Step, subjectsOf, type Test } from '@quarrel/model';
import type { Work } from '../rule.js';
import { partsOf } from '../tests.js';
import { isSomewhere } from '../work.js';

/** What a state is to be made, by name of the state. */
export type Made = ReadonlyMap<string, string>;

/** What is asked, where, and at which moment of the work the states of it can still be made. */
export interface Wish {
  readonly test: Test;
  readonly region: Region;
}

/**
 * Acts that make all wishes true when they are done at `moment`, the most fitting first: those whose own needs are met there,
 * then those that take the work the least way on.
 */
export function makersOf(wishes: readonly Wish[], moment: Moment, work: Work): readonly Act[] {
  return work.procedure.vocabulary.acts
    .map((act) => ({ act, isReady: isReady(act, wishes, moment, work), way: wayOn(act, work) }))
    .filter(
      ({ act, isReady }) => act.makes.length > 0 && wishes.every((wish) => comesTrue(wish, act, isReady, moment, work)),
    )
    .sort((a, b) => Number(b.isReady) - Number(a.isReady) || a.way - b.way)
    .map(({ act }) => act);
}

/** A value asked of a state that no act makes, and that would make all wishes true if it were confirmed at `moment`. */
export function confirmable(
  wishes: readonly Wish[],
  moment: Moment,
  work: Work,
): { readonly state: string; readonly value: string } | undefined {
  const { states, acts } = work.procedure.vocabulary;
  const asked = wishes
    .flatMap(({ test }) => partsOf(test))
    .flatMap((part) => (part.kind === 'is' && !part.negated ? [part] : []));
  for (const state of states) {
    // What a state starts with is not come back to by looking.
    for (const { name: value } of state.values.slice(1)) {
      if (!asked.some(({ subject, values }) => subject === state.name && values.includes(value))) continue;
      const isMade = acts.some(({ makes }) => makes.some((made) => made.state === state.name && made.value === value));
      const made = new Map([[state.name, value]]);
      if (!isMade && wishes.every(({ test, region }) => holdsWith(test, made, new Set(), region, moment, work))) {
        return { state: state.name, value };
      }
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

function isReady(act: Act, wishes: readonly Wish[], moment: Moment, work: Work): boolean {
  return act.needs.every(({ test }) =>
    wishes.every(({ region }) => holdsWith(test, new Map(), new Set(), region, moment, work)),
  );
}

function comesTrue({ test, region }: Wish, act: Act, isReady: boolean, moment: Moment, work: Work): boolean {
  const made = new Map(act.makes.map(({ state, value }) => [state, value]));
  // What an act needs and does not find is put right before it, in a way that nobody knows here.
  const open = new Set(isReady ? [] : act.needs.flatMap((need) => subjectsOf(need.test)));
  return holdsWith(test, made, open, region, moment, work);
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
