import type { Region } from '@quarrel/analysis';
import type { Scenario } from '@quarrel/model';
import type { Situation } from './finding.js';
import type { PlacedWhen } from './layout.js';
import type { Where, Work } from './rule.js';

/** A situation in words, with the steps of its path by number: it holds wherever the lines of the sheet move. */
export interface Told extends Omit<Situation, 'path'> {
  readonly path: readonly number[];
}

/**
 * Puts a region into words; `undefined` when it is empty. `step` is the number of the step it happens at, if at one; `told`
 * remembers what was told before.
 */
export function situationOf(
  where: Where,
  step: number | undefined,
  work: Work,
  told: Map<string, Told>,
): Situation | undefined {
  const key = `${where.region.id},${where.reached.id},${where.before},${step}`;
  let known = told.get(key);
  if (known === undefined) {
    known = tell(where, step, work);
    if (known === undefined) return undefined;
    told.set(key, known);
  }
  const path = known.path.flatMap((number) => {
    const passed = work.steps[number];
    return passed === undefined ? [] : [{ step: passed.id, text: passed.text, range: passed.range }];
  });
  return { ...known, path };
}

function tell({ region, reached, before }: Where, step: number | undefined, work: Work): Told | undefined {
  const { situations } = work.run;
  const witness = situations.typical(region);
  if (witness === undefined) return undefined;
  return {
    region: situations.describe(region, reached),
    lines: situations.lines(region, reached),
    witness,
    path: pathOf(witness, before, step, work),
  };
}

/**
 * The steps before a place that a situation comes through, in program order. A condition that is found out again on the way may
 * have had another value until then.
 */
function pathOf(witness: Scenario, before: number, place: number | undefined, work: Work): readonly number[] {
  const { situations, steps } = work.run;
  const { whens, foundAgain } = work.layout;
  const path: number[] = [];
  const changing = new Set<string>(place === undefined ? [] : foundAgain.get(place));
  const taken = whens.map((when) => ({ when, body: bodyTaken(when, witness, place, work) }));
  const isPassedBy = (number: number): boolean =>
    taken.some(({ when, body }) => {
      const around = when.spans.findIndex(({ from, to }) => from <= number && number < to);
      return around >= 0 && body !== undefined && around !== body;
    });
  for (let number = Math.min(before, steps.length) - 1; number >= 0; number -= 1) {
    const reached = steps[number]?.before.reached;
    if (reached === undefined || isPassedBy(number)) continue;
    const again = foundAgain.get(number) ?? [];
    if (!situations.holdsIn(overAll(reached, new Set([...changing, ...again]), work), witness)) continue;
    path.unshift(number);
    for (const condition of again) changing.add(condition);
  }
  return path;
}

/**
 * Which body of a `when` the way goes through: the one around the place, else the one that the situation takes as it is. Cases
 * are counted first, `otherwise` is behind them; `undefined` where only an older value tells.
 */
function bodyTaken(when: PlacedWhen, witness: Scenario, place: number | undefined, work: Work): number | undefined {
  const { situations, cases, fallthroughs } = work.run;
  const around = place === undefined ? -1 : when.spans.findIndex(({ from, to }) => from <= place && place < to);
  if (around >= 0) return around;
  const own = when.part.cases.findIndex((_, index) => {
    const holds = cases[when.firstCase + index]?.holds;
    return holds !== undefined && situations.holdsIn(holds, witness);
  });
  if (own >= 0) return own;
  const rest = fallthroughs[when.number];
  return rest !== undefined && situations.holdsIn(rest, witness) ? when.part.cases.length : undefined;
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
