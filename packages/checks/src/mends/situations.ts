import type { Moment, Region } from '@quarrel/analysis';
import { type Block, flowIn, type Step } from '@quarrel/model';
import type { Work } from '../rule.js';
import { isSomewhere } from '../work.js';

/**
 * A region as a test that a step can be made to depend on at `moment`: `always` where it is all that comes there; nothing where
 * it asks about what is not known there yet, or about one of `changing`, which the region speaks of as it is found out later.
 */
export function askedAt(
  region: Region,
  moment: Moment,
  work: Work,
  changing: ReadonlySet<string> = new Set(),
): string | undefined {
  const { situations } = work.run;
  const test = situations.describe(region, moment.reached);
  if (test === 'always') return test;
  const isOpen = (name: string): boolean =>
    changing.has(name) || isSomewhere(work, situations.store.and(moment.reached, moment.mayNotKnow(name)));
  return conditionsIn(test, work).some(isOpen) ? undefined : test;
}

/** The conditions that a test asks about; a value of the same name as a condition is taken for one. */
export function conditionsIn(test: string, work: Work): readonly string[] {
  const words = new Set(test.split(/[\s(),]+/));
  return work.run.situations.axes.map(({ name }) => name).filter((name) => words.has(name));
}

/** The conditions that a step finds out in its effects from the one index to below the other, also meanwhile. */
export function foundOutIn(step: Step, from: number, to: number): ReadonlySet<string> {
  return new Set(
    step.effects.slice(from, to).flatMap((effect): readonly string[] => {
      if (effect.kind === 'observe' || effect.kind === 'read') return [effect.condition];
      if (effect.kind !== 'meanwhile') return [];
      return stepsIn(effect.body).flatMap((inner) => [...foundOutIn(inner, 0, inner.effects.length)]);
    }),
  );
}

function stepsIn(block: Block): readonly Step[] {
  return [...flowIn(block)].filter((part) => part.kind === 'step');
}
