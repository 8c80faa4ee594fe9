import { type ByScenario, nodesOf, type Region } from '../diagram/diagram.js';
import { Outgrown } from '../diagram/store.js';
import type { Situations } from '../situations/situations.js';
import { forgetOnClock, joinClocks, type Stopwatch, startClock } from './clock.js';
import { hull, never } from './interval.js';
import type { Bits, Layout } from './layout.js';
import type { Interval } from './records.js';

/**
 * All the runs that have come to one moment knowing the same conditions, situation by situation. Outside `reached` the other
 * diagrams say nothing.
 */
export interface Strand {
  readonly reached: Region;
  /** By track: the values that some run has. */
  readonly tracks: readonly ByScenario<Bits>[];
  /** By level of the condition's axis: where it is known. */
  readonly known: readonly Region[];
  readonly now: Stopwatch;
  /**
   * The time since the repeats and holds around this moment began, outer before inner; one group for the whole procedure and
   * one for each hold. Only the innermost group goes on while a hold lasts: what a hold adds to those around it is known when it
   * ends.
   */
  readonly laps: readonly (readonly Stopwatch[])[];
  /** When the holds around this moment end, the innermost last. */
  readonly holdEnds: readonly Stopwatch[];
  /** The most seconds of each hold around this moment. */
  readonly holds: readonly number[];
  /** Answers owed, by question and by what triggered them. */
  readonly owed: ReadonlyMap<string, Owed>;
}

/** Which effect of which step did an act. */
export interface DoneBy {
  readonly step: number;
  readonly effect: number;
}

export interface Owed {
  readonly response: number;
  readonly by: DoneBy;
  /**
   * The values, by level, that conditions read again since then had when it was triggered; what is not listed here is as it
   * is now.
   */
  readonly origin: ReadonlyMap<number, ReadonlySet<number>>;
  /** The most seconds since the step that triggered it, `notOwed` where nothing is owed. */
  readonly since: ByScenario<number>;
  /** The same as it will be at least at the end of each hold around this moment. */
  readonly atHoldEnds: readonly ByScenario<number>[];
}

/** Stands for an answer that is not owed. */
export const notOwed = -1;

export function startStrand(situations: Situations, layout: Layout, covered: Region): Strand {
  const { store, axes } = situations;
  return {
    reached: covered,
    tracks: Array.from({ length: layout.trackCount }, () => store.constant(1n)),
    known: axes.map(() => store.nowhere),
    now: startClock(situations),
    laps: [[]],
    holdEnds: [],
    holds: [],
    owed: new Map(),
  };
}

/** The runs of a strand that are in a region; `undefined` if there are none. */
export function within(situations: Situations, strand: Strand, region: Region): Strand | undefined {
  const reached = situations.store.and(strand.reached, region);
  if (reached === situations.store.nowhere) return undefined;
  return reached === strand.reached ? strand : { ...strand, reached };
}

/** The innermost laps of a strand some time later. */
export function lapsLater(situations: Situations, strand: Strand, time: ByScenario<Interval>): Strand['laps'] {
  return strand.laps.with(
    -1,
    (strand.laps.at(-1) ?? []).map((lap) => lap.later(situations, time)),
  );
}

/** The strand with one more lap that begins now, in the innermost group. */
export function beginLap(situations: Situations, strand: Strand): Strand {
  return { ...strand, laps: strand.laps.with(-1, [...(strand.laps.at(-1) ?? []), startClock(situations)]) };
}

/** The innermost lap of a strand, and the strand without it. */
export function endLap(situations: Situations, strand: Strand): { readonly lap: Stopwatch; readonly rest: Strand } {
  const group = strand.laps.at(-1) ?? [];
  return {
    lap: group.at(-1) ?? startClock(situations),
    rest: { ...strand, laps: strand.laps.with(-1, group.slice(0, -1)) },
  };
}

export const union = (a: Bits, b: Bits): Bits => a | b;
const most = (a: number, b: number): number => Math.max(a, b);

/** The most strands that may run side by side; beyond it a procedure counts as too tangled. */
const mostStrands = 64;

/**
 * Strands that meet, as few as they can be: two become one unless there is a situation in which they know different things, or
 * are in holds that end at different times.
 * `apart`, where given, is a region that holds all of the first strand and nothing of the others.
 */
export function gather(situations: Situations, strands: readonly Strand[], apart?: Region): readonly Strand[] {
  const gathered: Strand[] = [];
  for (const strand of strands) {
    const partner = gathered.findIndex((other) => canMerge(situations, other, strand));
    const other = gathered[partner];
    if (other === undefined) gathered.push(strand);
    else gathered[partner] = merge(situations, other, strand, apart);
  }
  if (gathered.length > mostStrands) throw new Outgrown([], knownHereAndThere(situations, gathered));
  return gathered;
}

/** The conditions that some strands know and others do not. */
function knownHereAndThere(situations: Situations, strands: readonly Strand[]): readonly string[] {
  return situations.axes
    .filter((_, level) => new Set(strands.map((strand) => strand.known[level])).size > 1)
    .map((axis) => axis.name);
}

function canMerge(situations: Situations, a: Strand, b: Strand): boolean {
  const { store } = situations;
  const overlap = store.and(a.reached, b.reached);
  if (overlap === store.nowhere) return true;
  const knowAlike = a.known.every((known, level) => {
    const other = b.known[level] ?? known;
    return known === other || store.and(known, overlap) === store.and(other, overlap);
  });
  const others = framesOf(b);
  return (
    knowAlike &&
    framesOf(a).every((clock, index) => {
      const other = others[index] ?? clock;
      return clock === other || clock.total(situations) === other.total(situations);
    })
  );
}

/** The clocks that stand still while a hold lasts: what is done meanwhile is held against them when it ends. */
function framesOf(strand: Strand): readonly Stopwatch[] {
  return [...strand.holdEnds, ...strand.laps.slice(0, -1).flat()];
}

function merge(situations: Situations, a: Strand, b: Strand, apart: Region | undefined): Strand {
  const { store } = situations;
  const overlap = store.and(a.reached, b.reached);
  const selector = simplest(situations, a, b, apart);
  const choose = <T>(x: ByScenario<T>, y: ByScenario<T>, join: (x: T, y: T) => T): ByScenario<T> => {
    if (x === y) return x;
    const apartOnly = store.choose(selector, x, y);
    return overlap === store.nowhere ? apartOnly : store.choose(overlap, store.combine(x, y, join), apartOnly);
  };
  const join = (x: ByScenario<Interval>, y: ByScenario<Interval>): ByScenario<Interval> => choose(x, y, hull);
  return {
    reached: store.or(a.reached, b.reached),
    tracks: a.tracks.map((track, index) => choose(track, b.tracks[index] ?? track, union)),
    known: a.known.map((known, level) => choose(known, b.known[level] ?? known, (x) => x)),
    now: joinClocks(situations, a.now, b.now, join),
    laps: a.laps.map((group, outer) =>
      group.map((lap, inner) => joinClocks(situations, lap, b.laps[outer]?.[inner] ?? lap, join)),
    ),
    holdEnds: a.holdEnds.map((end, index) => joinClocks(situations, end, b.holdEnds[index] ?? end, join)),
    holds: a.holds,
    owed: mergeOwed(situations, a, b, (x, y) => choose(x, y, most)),
  };
}

/** A region that tells the runs of `a` from those of `b` where they do not overlap. */
function simplest(situations: Situations, a: Strand, b: Strand, apart: Region | undefined): Region {
  const { store } = situations;
  if (apart === undefined) return a.reached;
  const tells = store.without(a.reached, apart) === store.nowhere && store.and(b.reached, apart) === store.nowhere;
  return tells ? apart : a.reached;
}

function mergeOwed(
  situations: Situations,
  a: Strand,
  b: Strand,
  choose: (x: ByScenario<number>, y: ByScenario<number>) => ByScenario<number>,
): ReadonlyMap<string, Owed> {
  if (a.owed === b.owed) return a.owed;
  const none = situations.store.constant(notOwed);
  const merged = new Map<string, Owed>();
  for (const key of new Set([...a.owed.keys(), ...b.owed.keys()])) {
    const [x, y] = [a.owed.get(key), b.owed.get(key)];
    const either = x ?? y;
    if (either === undefined) continue;
    merged.set(key, {
      ...either,
      since: choose(x?.since ?? none, y?.since ?? none),
      atHoldEnds: either.atHoldEnds.map((_, index) =>
        choose(x?.atHoldEnds[index] ?? none, y?.atHoldEnds[index] ?? none),
      ),
    });
  }
  return merged;
}

/**
 * The runs of a strand after the condition of one axis took a new value, any with which the situation is covered. What
 * depended on the old value is kept for every value it may have had.
 */
export function renew(situations: Situations, strand: Strand, level: number, covered: Region): readonly Strand[] {
  const { store } = situations;
  const dependent = strand.known.flatMap((known, other) => (dependsOn(known, level) ? [other] : []));
  let parts: readonly Strand[] = [strand];
  for (const other of dependent) {
    const known = strand.known[other] ?? store.nowhere;
    parts = parts.flatMap((part) =>
      (
        [
          [known, store.everywhere],
          [store.not(known), store.nowhere],
        ] as const
      ).flatMap(([region, value]) => {
        const piece = within(situations, part, region);
        return piece === undefined ? [] : [{ ...piece, known: piece.known.with(other, value) }];
      }),
    );
  }
  return parts
    .flatMap((part) => partsOfOneFrame(situations, part, level))
    .map((part) => forgetIn(situations, part, level, covered));
}

/**
 * The runs of a strand, apart where the holds around them end at different times for different values of an axis: which run's
 * hold is the longer part could not be told any more once the axis is forgotten.
 */
function partsOfOneFrame(situations: Situations, strand: Strand, level: number): readonly Strand[] {
  const { store } = situations;
  const frames = framesOf(strand).map((clock) => clock.total(situations));
  if (!frames.some((frame) => dependsOn(frame, level))) return [strand];
  const groups = new Map<string, Region>();
  for (let cell = 0; cell < (store.sizes[level] ?? 1); cell++) {
    const here = store.cells(level, new Set([cell]));
    const key = frames
      .map((frame) => store.forget(store.choose(here, frame, store.constant(never)), level, hull).id)
      .join(' ');
    groups.set(key, store.or(groups.get(key) ?? store.nowhere, here));
  }
  return [...groups.values()].flatMap((region) => within(situations, strand, region) ?? []);
}

function forgetIn(situations: Situations, strand: Strand, level: number, covered: Region): Strand {
  const { store } = situations;
  const forget = <T>(diagram: ByScenario<T>, empty: T, join: (x: T, y: T) => T): ByScenario<T> =>
    dependsOn(diagram, level)
      ? store.forget(store.choose(strand.reached, diagram, store.constant(empty)), level, join)
      : diagram;
  const forgetClock = (clock: Stopwatch): Stopwatch =>
    dependsOn(clock.total(situations), level) ? forgetOnClock(situations, clock, level, strand.reached) : clock;
  return {
    ...strand,
    reached: store.and(
      store.forget(strand.reached, level, (x, y) => x || y),
      covered,
    ),
    tracks: strand.tracks.map((track) => forget(track, 0n, union)),
    now: forgetClock(strand.now),
    laps: strand.laps.map((group) => group.map(forgetClock)),
    holdEnds: strand.holdEnds.map(forgetClock),
    owed: byKey(
      situations,
      [...strand.owed.values()].flatMap((debt) => renewedDebts(situations, strand, debt, level)),
    ),
  };
}

/** Debts by their keys; of those with one key, the longer in each situation. */
function byKey(situations: Situations, debts: readonly Owed[]): ReadonlyMap<string, Owed> {
  const { store } = situations;
  const found = new Map<string, Owed>();
  for (const debt of debts) {
    const key = keyOf(debt);
    const other = found.get(key);
    found.set(
      key,
      other === undefined
        ? debt
        : {
            ...debt,
            since: store.combine(debt.since, other.since, most),
            atHoldEnds: debt.atHoldEnds.map((end, index) => store.combine(end, other.atHoldEnds[index] ?? end, most)),
          },
    );
  }
  return found;
}

/** What tells one debt from another. */
export function keyOf({ response, by, origin }: Pick<Owed, 'response' | 'by' | 'origin'>): string {
  const origins = [...origin].map(([level, cells]) => `${level}:${[...cells].join('+')}`).sort();
  return [response, by.step, by.effect, ...origins].join(' ');
}

/**
 * A debt after an axis was forgotten: one for each set of values that the condition may have had and that leave the same debt,
 * so that it can still be told in which situation it was triggered.
 */
function renewedDebts(situations: Situations, strand: Strand, debt: Owed, level: number): readonly Owed[] {
  const { store } = situations;
  const none = store.constant(notOwed);
  const at = (region: Region, diagram: ByScenario<number>): ByScenario<number> =>
    store.forget(store.choose(store.and(strand.reached, region), diagram, none), level, most);
  if (debt.origin.has(level)) {
    const whole = (diagram: ByScenario<number>): ByScenario<number> => at(store.everywhere, diagram);
    return [{ ...debt, since: whole(debt.since), atHoldEnds: debt.atHoldEnds.map(whole) }];
  }
  const groups = new Map<string, { readonly debt: Owed; readonly cells: Set<number> }>();
  for (let cell = 0; cell < (store.sizes[level] ?? 1); cell++) {
    const here = store.cells(level, new Set([cell]));
    const since = at(here, debt.since);
    if (since === none) continue;
    const atHoldEnds = debt.atHoldEnds.map((end) => at(here, end));
    const key = [since, ...atHoldEnds].map((diagram) => diagram.id).join(' ');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { debt: { ...debt, since, atHoldEnds }, cells: new Set([cell]) });
    else group.cells.add(cell);
  }
  return [...groups.values()].map(({ debt: one, cells }) => ({
    ...one,
    origin: new Map(one.origin).set(level, cells),
  }));
}

function dependsOn(diagram: ByScenario<unknown>, level: number): boolean {
  for (const node of nodesOf([diagram])) if (node.kind === 'branch' && node.level === level) return true;
  return false;
}
