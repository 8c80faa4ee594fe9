import type { Region } from '@quarrel/analysis';
import type { Scenario } from '@quarrel/model';
import type { Situation } from './finding.js';
import type { Where, Work } from './rule.js';

/** A situation in words, with the steps of its path by number: it holds wherever the lines of the sheet move. */
export interface Told extends Omit<Situation, 'path'> {
  readonly path: readonly number[];
}

/** Puts a region into words; `undefined` when it is empty. `told` remembers what was told before. */
export function situationOf(where: Where, work: Work, told: Map<string, Told>): Situation | undefined {
  const key = `${where.region.id},${where.reached.id},${where.before}`;
  let known = told.get(key);
  if (known === undefined) {
    known = tell(where, work);
    if (known === undefined) return undefined;
    told.set(key, known);
  }
  const path = known.path.flatMap((number) => {
    const step = work.steps[number];
    return step === undefined ? [] : [{ step: step.id, text: step.text, range: step.range }];
  });
  return { ...known, path };
}

function tell({ region, reached, before }: Where, work: Work): Told | undefined {
  const { situations } = work.run;
  const witness = situations.typical(region);
  if (witness === undefined) return undefined;
  return {
    region: situations.describe(region, reached),
    lines: situations.lines(region, reached),
    witness,
    path: pathOf(witness, before, work),
  };
}

/**
 * The steps before a place that a situation comes through, in program order. A condition that is found out again further on
 * may have had another value while an earlier step was done.
 */
function pathOf(witness: Scenario, before: number, work: Work): readonly number[] {
  const { situations, steps } = work.run;
  const path: number[] = [];
  const changing = new Set<string>();
  for (let number = Math.min(before, steps.length) - 1; number >= 0; number -= 1) {
    for (const condition of work.layout.foundAgain.get(number + 1) ?? []) changing.add(condition);
    const reached = steps[number]?.before.reached;
    if (reached !== undefined && situations.holdsIn(overAll(reached, changing, work), witness)) path.unshift(number);
  }
  return path;
}

/** The region, whatever values the conditions have. */
function overAll(region: Region, conditions: ReadonlySet<string>, work: Work): Region {
  const { situations } = work.run;
  let joined = region;
  for (const condition of conditions) {
    const level = situations.levelOf(condition);
    if (level !== undefined) joined = situations.store.forget(joined, level, either);
  }
  return joined;
}

const either = (a: boolean, b: boolean): boolean => a || b;
