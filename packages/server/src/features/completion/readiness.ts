import type { Region } from '@quarrel/analysis';
import type { Act, Test } from '@quarrel/model';
import { either } from '../hover/markdown.js';
import type { Asked } from './asked.js';

/** How an act stands at a place: what it needs is so in every situation that comes there, in some, or in none. */
export interface Readiness {
  readonly rank: 0 | 1 | 2;
  readonly detail: string;
}

/** Where something is so for sure, and where it may be so. */
interface Truth {
  readonly surely: Region;
  readonly maybe: Region;
}

/** How acts stand at the cursor; nothing where no run comes. `made` are the states that the step has made before it. */
export function readinessAt(
  { known, moment }: Asked,
  made: ReadonlyMap<string, string>,
): ((name: string) => Readiness | undefined) | undefined {
  const run = known?.run;
  if (run === undefined || moment === undefined) return undefined;
  const { situations } = run;
  const { store } = situations;
  const { acts, states } = situations.procedure.vocabulary;
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
  const readiness = ({ needs }: Act): Readiness => {
    let isPartly = false;
    for (const { test } of needs) {
      const { surely, maybe } = truthOf(test);
      if (store.and(moment.reached, store.not(surely)) === store.nowhere) continue;
      if (store.and(moment.reached, maybe) === store.nowhere) return { rank: 2, detail: `needs ${needWords(test)}` };
      isPartly = true;
    }
    const first = needs.find(
      ({ test }) => store.and(moment.reached, store.not(truthOf(test).surely)) !== store.nowhere,
    );
    return isPartly && first !== undefined
      ? { rank: 1, detail: `needs ${needWords(first.test)}: not so in every situation here` }
      : { rank: 0, detail: 'ready here' };
  };
  const byName = new Map(acts.map((act) => [act.name, act]));
  return (name) => {
    const act = byName.get(name);
    return act === undefined ? undefined : readiness(act);
  };
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
