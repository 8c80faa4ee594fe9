import type { Scenario } from '@quarrel/model';
import { type ByScenario, nodesOf, type Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import { hull, longer, never, noTime, plus } from './interval.js';
import type { Interval } from './records.js';

/** The time on the clock at some moment, by situation. */
export interface Clock {
  /** From the least to the most over the situations of a region in which some run comes here; `undefined` where none does. */
  over(region: Region): Interval | undefined;
  /** The same where times that add up in many ways are told apart too. It adds up anew every time it is asked. */
  closely(region: Region): Interval | undefined;
  /** In one situation, in which some run has to come here. */
  at(scenario: Scenario): Interval;
}

/**
 * A clock while it runs: times laid one after another. They are added up only when somebody asks, because a sum over many
 * independent branches is far larger than its parts.
 */
export class Stopwatch {
  /** How many times lie one upon another. */
  readonly height: number;
  #total: ByScenario<Interval> | undefined;

  constructor(
    readonly before: Stopwatch | undefined,
    readonly added: ByScenario<Interval>,
  ) {
    this.height = before === undefined ? 0 : before.height + 1;
  }

  /** This clock some time later. */
  later(situations: Situations, time: ByScenario<Interval>): Stopwatch {
    return time === situations.store.constant(noTime) ? this : new Stopwatch(this, time);
  }

  /**
   * The whole time since the start. A sum that grows beyond `largestSum` nodes is kept as its extremes: right at both ends,
   * no longer told apart by situation.
   */
  total(situations: Situations): ByScenario<Interval> {
    if (this.#total === undefined) {
      // Without recursion: a long procedure lays thousands of times one upon another.
      const parts: Stopwatch[] = [];
      let sum: ByScenario<Interval> = situations.store.constant(noTime);
      for (let part: Stopwatch | undefined = this; part !== undefined; part = part.before) {
        if (part.#total !== undefined) {
          sum = part.#total;
          break;
        }
        parts.push(part);
      }
      for (const one of parts.reverse()) {
        sum = added(situations, sum, one.added);
        one.#total = sum;
      }
    }
    return this.#total ?? this.added;
  }

  /** The time since an earlier moment of this clock, kept as `total` keeps it. */
  since(situations: Situations, moment: Stopwatch | undefined): ByScenario<Interval> {
    if (moment === undefined) return this.total(situations);
    let sum: ByScenario<Interval> = situations.store.constant(noTime);
    for (let part: Stopwatch | undefined = this; part !== undefined && part !== moment; part = part.before) {
      sum = added(situations, sum, part.added);
    }
    return sum;
  }
}

function added(situations: Situations, sum: ByScenario<Interval>, more: ByScenario<Interval>): ByScenario<Interval> {
  const { store } = situations;
  const kept = more.kind === 'branch' && isLarge(sum, largestSum) ? store.constant(spread(situations, sum)) : sum;
  return store.combine(kept, more, plus);
}

const largestSum = 256;

function isLarge(diagram: ByScenario<unknown>, most: number): boolean {
  let count = 0;
  for (const _ of nodesOf([diagram])) if (++count > most) return true;
  return false;
}

/** From the least to the most that times reach anywhere. */
function spread(situations: Situations, times: ByScenario<Interval>, within?: Region): Interval {
  return situations.distinct(times, within ?? situations.store.everywhere).reduce(hull, never);
}

/** The clock at the start: nothing has passed. */
export function startClock(situations: Situations): Stopwatch {
  return new Stopwatch(undefined, situations.store.constant(noTime));
}

/** The latest moment that two clocks have in common, if there is one. */
export function commonMoment(a: Stopwatch, b: Stopwatch): Stopwatch | undefined {
  let [x, y]: (Stopwatch | undefined)[] = [a, b];
  while (x !== undefined && y !== undefined && x !== y) {
    if (x.height >= y.height) x = x.before;
    else y = y.before;
  }
  return x === y ? x : undefined;
}

/**
 * Two clocks as one, where runs meet: `choice` picks between the times that have passed since they parted.
 */
export function joinClocks(
  situations: Situations,
  a: Stopwatch,
  b: Stopwatch,
  choice: (a: ByScenario<Interval>, b: ByScenario<Interval>) => ByScenario<Interval>,
): Stopwatch {
  if (a === b) return a;
  const since = commonMoment(a, b);
  return new Stopwatch(since, choice(a.since(situations, since), b.since(situations, since)));
}

/** Of two clocks that run at once the later one, situation by situation. */
export function laterOf(situations: Situations, a: Stopwatch, b: Stopwatch): Stopwatch {
  return joinClocks(situations, a, b, (x, y) => situations.store.combine(x, y, longer));
}

/** A clock after an axis was forgotten: its time, over all the values that may have been. */
export function forgetOnClock(situations: Situations, clock: Stopwatch, level: number, reached: Region): Stopwatch {
  const { store } = situations;
  const masked = store.choose(reached, clock.total(situations), store.constant(never));
  const forgotten = store.forget(masked, level, hull);
  return new Stopwatch(
    undefined,
    store.choose(store.not(isNever(situations, forgotten)), forgotten, store.constant(noTime)),
  );
}

function isNever(situations: Situations, times: ByScenario<Interval>): Region {
  return situations.store.map(times, (time) => time === never);
}

/** A clock as it is seen from outside: what every way to the moment shows, each where it comes there. */
export function readClock(
  situations: Situations,
  ways: readonly { readonly reached: Region; readonly clock: Stopwatch }[],
): Clock {
  const { store } = situations;
  return {
    over(region) {
      const found = ways.flatMap(({ reached, clock }) => {
        const there = store.and(region, reached);
        return there === store.nowhere ? [] : [spread(situations, clock.total(situations), there)];
      });
      return found.length === 0 ? undefined : found.reduce(hull);
    },
    closely(region) {
      const found = ways.flatMap(({ reached, clock }) => {
        const there = store.and(region, reached);
        return there === store.nowhere ? [] : [closeSpread(situations, clock, there)];
      });
      return found.length === 0 ? undefined : found.reduce(hull);
    },
    at(scenario) {
      const found = ways
        .filter(({ reached }) => situations.holdsIn(reached, scenario))
        .map(({ clock }) => timeIn(situations, clock, scenario));
      if (found.length === 0) throw new RangeError('no run comes here in this situation');
      return found.reduce(hull);
    },
  };
}

/**
 * From the least to the most of a whole clock inside a region. A condition is forgotten as soon as no time still to be added
 * depends on it, so that only those stay together that matter together (bucket elimination: Dechter, Artificial Intelligence 113,
 * 1999, from memory).
 */
function closeSpread(situations: Situations, clock: Stopwatch, within: Region): Interval {
  const { store } = situations;
  const times = addedTo(clock);
  const last = lastUses(times);
  let sum: ByScenario<Interval> = store.choose(within, store.constant(noTime), store.constant(never));
  const forgetUsedUp = (index: number): void => {
    for (const level of levelsOf(sum)) if ((last.get(level) ?? -1) <= index) sum = store.forget(sum, level, hull);
  };
  forgetUsedUp(-1);
  for (const [index, time] of times.entries()) {
    if (isLarge(sum, largestCloseSum)) return spread(situations, clock.total(situations), within);
    sum = store.combine(sum, time, laterStill);
    forgetUsedUp(index);
  }
  return spread(situations, sum);
}

const largestCloseSum = 4096;

const laterStill = (a: Interval, b: Interval): Interval => (a === never ? never : plus(a, b));

/** The times that lie one upon another, the first one first. */
function addedTo(clock: Stopwatch): readonly ByScenario<Interval>[] {
  const times: ByScenario<Interval>[] = [];
  for (let part: Stopwatch | undefined = clock; part !== undefined; part = part.before) times.push(part.added);
  return times.reverse();
}

/** For each level that times depend on, the last of them that does. */
function lastUses(times: readonly ByScenario<Interval>[]): ReadonlyMap<number, number> {
  const last = new Map<number, number>();
  for (const [index, time] of times.entries()) for (const level of levelsOf(time)) last.set(level, index);
  return last;
}

function levelsOf(diagram: ByScenario<unknown>): ReadonlySet<number> {
  const levels = new Set<number>();
  for (const node of nodesOf([diagram])) if (node.kind === 'branch') levels.add(node.level);
  return levels;
}

function timeIn(situations: Situations, clock: Stopwatch, scenario: Scenario): Interval {
  let sum = noTime;
  for (let part: Stopwatch | undefined = clock; part !== undefined; part = part.before) {
    sum = plus(sum, situations.valueIn(part.added, scenario));
  }
  return sum;
}
