import type { Region } from '@quarrel/analysis';
import type { Act, Test } from '@quarrel/model';
import { either } from '../hover/markdown.js';
import type { Asked } from './asked.js';

/** How an act stands at a place: what it needs is so in every situation that comes there, in some, or in none. */
export interface Readiness {
  readonly rank: 0 | 1 | 2;
  readonly detail: string;
  /** The first need that is not met. */
  readonly need?: Test;
}

/** Where something is so for sure, and where it may be so. */
interface Truth {
  readonly surely: Region;
  readonly maybe: Region;
}

type Here = Pick<Asked, 'known' | 'moment'>;

/** How acts stand at the cursor; nothing where no run comes. `made` are the states that the step has made before it. */
export function readinessAt(
  here: Here,
  made: ReadonlyMap<string, string>,
): ((name: string) => Readiness | undefined) | undefined {
  const { known, moment } = here;
  const truthOf = truthAt(here, made);
  const situations = known?.run?.situations;
  if (situations === undefined || moment === undefined || truthOf === undefined) return undefined;
  const { store, procedure } = situations;
  const readiness = ({ needs }: Act): Readiness => {
    const judged = needs.map(({ test }) => ({ test, ...truthOf(test) }));
    const never = judged.find(({ maybe }) => store.and(moment.reached, maybe) === store.nowhere);
    if (never !== undefined) return { rank: 2, detail: `needs ${needWords(never.test)}`, need: never.test };
    const open = judged.find(({ surely }) => store.and(moment.reached, store.not(surely)) !== store.nowhere);
    if (open === undefined) return { rank: 0, detail: 'ready here' };
    return { rank: 1, detail: `needs ${needWords(open.test)}: not so in every situation here`, need: open.test };
  };
  const byName = new Map(procedure.vocabulary.acts.map((act) => [act.name, act]));
  return (name) => {
    const act = byName.get(name);
    return act === undefined ? undefined : readiness(act);
  };
}

/** Whether a test may hold in a situation that comes here; so it may where nothing is known. */
export function mayHoldAt(here: Here, test: Test): boolean {
  const { known, moment } = here;
  const truth = truthAt(here, new Map())?.(test);
  const store = known?.run?.situations.store;
  if (truth === undefined || store === undefined || moment === undefined) return true;
  return store.and(moment.reached, truth.maybe) !== store.nowhere;
}

/** Judges tests on conditions and states at the cursor; nothing where no run comes. */
function truthAt({ known, moment }: Here, made: ReadonlyMap<string, string>): ((test: Test) => Truth) | undefined {
  const run = known?.run;
  if (run === undefined || moment === undefined) return undefined;
  const { situations } = run;
  const { store } = situations;
  const { states } = situations.procedure.vocabulary;
  const ofState = new Set(states.map(({ name }) => name));
  const unknown: Truth = { surely: store.nowhere, maybe: store.everywhere };
  const not = ({ surely, maybe }: Truth): Truth => ({ surely: store.not(maybe), maybe: store.not(surely) });

  const truthOf = (test: Test): Truth => {
    switch (test.kind) {
      case 'not':
        return not(truthOf(test.test));
      case 'and':
        return test.tests
          .map(truthOf)
          .reduce((a, b) => ({ surely: store.and(a.surely, b.surely), maybe: store.and(a.maybe, b.maybe) }));
      case 'or':
        return test.tests
          .map(truthOf)
          .reduce((a, b) => ({ surely: store.or(a.surely, b.surely), maybe: store.or(a.maybe, b.maybe) }));
      case 'is':
        return ofState.has(test.subject) ? ofStates(test) : ofConditions(test);
      default:
        return ofConditions(test);
    }
  };
  const ofStates = ({ subject, values, negated }: Extract<Test, { kind: 'is' }>): Truth => {
    const isWanted = (value: string): boolean => values.includes(value) !== negated;
    const now = made.get(subject);
    if (now !== undefined)
      return isWanted(now)
        ? { surely: store.everywhere, maybe: store.everywhere }
        : { surely: store.nowhere, maybe: store.nowhere };
    const possible = moment.state(subject);
    return {
      surely: store.map(possible, (all) => [...all].every(isWanted)),
      maybe: store.map(possible, (all) => [...all].some(isWanted)),
    };
  };
  const ofConditions = (test: Test): Truth => {
    try {
      const { holds, fails } = situations.region(test);
      return { surely: store.not(fails), maybe: holds };
    } catch (error) {
      // The procedure does not speak of it, so that nothing is known of it.
      if (error instanceof RangeError) return unknown;
      throw error;
    }
  };
  return truthOf;
}

/** `seal tight`, `cavity empty or filled`. */
export function needWords(test: Test): string {
  switch (test.kind) {
    case 'is':
      return `${test.subject} ${test.negated ? 'not ' : ''}${either(test.values)}`;
    case 'and':
    case 'or':
      return test.tests.map(needWords).join(` ${test.kind} `);
    case 'not':
      return `not ${needWords(test.test)}`;
    case 'compare':
    case 'between':
      return `${test.subject} in range`;
    default:
      return 'more than is so here';
  }
}
