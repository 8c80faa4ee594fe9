import type { ByScenario, Region } from '../diagram/diagram.js';
import { Outgrown } from '../diagram/store.js';
import type { Situations } from '../situations/situations.js';
import { joinClocks, type Stopwatch, startClock } from './clock.js';
import { hull } from './interval.js';
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

/** What tells one debt from another. */
export function keyOf({ response, by, origin }: Pick<Owed, 'response' | 'by' | 'origin'>): string {
  const origins = [...origin].map(([level, cells]) => `${level}:${[...cells].join('+')}`).sort();
  return [response, by.step, by.effect, ...origins].join(' ');
}

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
/** The longer of two debts; anything is longer than none. */
export const most = (a: number, b: number): number => Math.max(a, b);

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
export function framesOf(strand: Strand): readonly Stopwatch[] {
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
