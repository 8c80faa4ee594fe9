import type { Region } from '@quarrel/analysis';
import type { Work } from '../rule.js';

/** Remembers where something has been told, step after step, so that it is told once in each situation. */
export interface Untold {
  /** What is left to be told of `what` in a region at a step, which is taken for told then. Steps come in program order. */
  leaves(what: string, region: Region, number: number): Region;
}

/** Where a condition is found out again the situation is another one, and everything can be told again. */
export function untold(work: Work): Untold {
  const { store } = work.run.situations;
  const told = new Map<string, Region>();
  let seen = 0;
  return {
    leaves: (what, region, number) => {
      for (; seen <= number; seen += 1) if (work.layout.foundAgain.has(seen)) told.clear();
      const before = told.get(what) ?? store.nowhere;
      told.set(what, store.or(before, region));
      return store.without(region, before);
    },
  };
}
