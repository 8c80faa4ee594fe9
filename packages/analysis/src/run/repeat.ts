import type { Repeat, StateValue } from '@quarrel/model';
import { flowIn } from '@quarrel/model';
import type { ByScenario, Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import { commonMoment, type Stopwatch } from './clock.js';
import { type Course, runBlock } from './flow.js';
import { interval, noTime } from './interval.js';
import { widened } from './ledger.js';
import type { Interval } from './records.js';
import { beginLap, endLap, gather, lapsLater, notOwed, type Strand } from './strand.js';

/** After this many passes of a repeat without bound, what still grows from pass to pass is taken to grow for ever. */
const patience = 8;

/** Runs a repeat pass by pass until further passes change nothing, or only clocks in a way that can be laid out at once. */
export function runRepeat(course: Course, part: Repeat, strands: readonly Strand[]): readonly Strand[] {
  const { situations, ledger, numbering } = course;
  const number = numbering.of(part);
  const notes = ledger.repeats[number];
  for (const strand of strands) notes?.entered.add(strand.reached);
  const seen = (came: readonly Strand[]): readonly Strand[] => confirmed(course, part.confirms, came);
  let exits: readonly Strand[] = [];
  let entering: readonly Strand[] = strands.map((strand) => beginLap(situations, strand));
  // Strands can come out of a pass grouped otherwise than they went in and be themselves again some passes later.
  const before = new Map<string, { readonly pass: number; readonly strands: readonly Strand[] }>();
  for (let pass = 1; entering.length > 0; pass++) {
    const rereadings = course.tally.rereadings;
    const came = gather(situations, runBlock(course, part.body, entering));
    for (const strand of came) notes?.passed.add(strand.reached);
    exits = gather(situations, [...exits, ...seen(came)]);
    if (pass === part.atMost || isSettled(situations, entering, came)) {
      if (part.atMost === undefined) break;
      exits = gather(situations, [...exits, ...unconfirmed(course, part, came)]);
      break;
    }
    const left = part.atMost === undefined ? Number.POSITIVE_INFINITY : part.atMost - pass;
    // A pass that reads a condition again brings runs into other situations, which may take other times.
    const moves = course.tally.rereadings !== rereadings;
    const steady = moves ? undefined : steadyPass(situations, entering, came);
    if (steady !== undefined) {
      const last = runBlock(course, part.body, [longer(situations, steady, { least: 0, most: left - 1 })]);
      exits = gather(situations, [...exits, ...seen(last)]);
      if (part.atMost !== undefined) {
        exits = gather(situations, [
          ...exits,
          ...unconfirmed(course, part, [longer(situations, steady, { least: left, most: left })]),
        ]);
      }
      break;
    }
    const earlier = before.get(meaningOf(situations, came));
    if (part.atMost === undefined && pass >= patience && earlier !== undefined) {
      let round = endless(situations, earlier.strands, came);
      for (let phase = earlier.pass; phase < pass; phase++) {
        round = gather(situations, runBlock(course, part.body, round));
        exits = gather(situations, [...exits, ...seen(round)]);
      }
      break;
    }
    before.set(meaningOf(situations, came), { pass, strands: came });
    entering = came;
  }
  noteUntouched(course, part, number);
  return exits.map((strand) => {
    const { lap, rest } = endLap(situations, strand);
    for (const value of situations.distinct(lap.total(situations), strand.reached)) {
      if (notes !== undefined) notes.time = widened(notes.time, value);
    }
    return rest;
  });
}

function confirmed(course: Course, made: StateValue | undefined, strands: readonly Strand[]): readonly Strand[] {
  return made === undefined ? strands : strands.map((strand) => course.tracks.make(strand, made));
}

/** What becomes of runs whose last pass ends without the goal. */
function unconfirmed(course: Course, part: Repeat, came: readonly Strand[]): readonly Strand[] {
  if (part.orElseStop === undefined) return came;
  const by = { kind: 'repeat', repeat: course.numbering.of(part) } as const;
  for (const strand of came) course.ledger.stop(by, part.orElseStop, strand.reached, strand.now);
  return [];
}

/** Whether a pass changed nothing at all, not even a clock, so that every further one does the same. */
function isSettled(situations: Situations, entering: readonly Strand[], came: readonly Strand[]): boolean {
  if (!sameMeaning(situations, entering, came)) return false;
  const earlier = new Map(entering.map((strand) => [meaningKey(situations, strand), strand]));
  return came.every((strand) => {
    const before = earlier.get(meaningKey(situations, strand));
    return before !== undefined && sameDebts(situations, before, strand) && sameClocks(situations, before, strand);
  });
}

function sameClocks(situations: Situations, a: Strand, b: Strand): boolean {
  const clocksOf = ({ now, laps }: Strand): readonly Stopwatch[] => [now, ...laps.flat()];
  const others = clocksOf(b);
  return clocksOf(a).every((clock, index) => {
    const other = others[index];
    return clock === other || clock.total(situations) === other?.total(situations);
  });
}

interface Steady {
  readonly came: Strand;
  /** What each further pass takes. */
  readonly time: ByScenario<Interval>;
}

/**
 * Where one pass changed nothing but the clock, every further one does the same: their times can be laid out at once.
 * `undefined` where that cannot be said.
 */
function steadyPass(situations: Situations, entering: readonly Strand[], came: readonly Strand[]): Steady | undefined {
  const [before, after] = [entering[0], came[0]];
  if (before === undefined || after === undefined || entering.length !== 1 || came.length !== 1) return undefined;
  if (commonMoment(before.now, after.now) !== before.now) return undefined;
  if (!sameMeaning(situations, entering, came) || !sameDebts(situations, before, after)) return undefined;
  return { came: after, time: after.now.since(situations, before.now) };
}

function longer(
  situations: Situations,
  steady: Steady,
  times: { readonly least: number; readonly most: number },
): Strand {
  const more = situations.store.map(steady.time, (time) =>
    interval(product(time.least, times.least), product(time.most, times.most)),
  );
  return {
    ...steady.came,
    now: steady.came.now.later(situations, more),
    laps: lapsLater(situations, steady.came, more),
  };
}

/** Nothing, however often, is nothing. */
function product(seconds: number, times: number): number {
  return seconds === 0 || times === 0 ? 0 : Math.round(seconds * times * 1e6) / 1e6;
}

/** Whether two sets of strands differ in nothing but clocks and debts. */
function sameMeaning(situations: Situations, a: readonly Strand[], b: readonly Strand[]): boolean {
  return a.length === b.length && meaningOf(situations, a) === meaningOf(situations, b);
}

/** The same for strands that differ in nothing but clocks and debts. */
function meaningOf(situations: Situations, strands: readonly Strand[]): string {
  return strands
    .map((strand) => meaningKey(situations, strand))
    .sort()
    .join('|');
}

/** Told of every strand several times in each pass, and dear. */
const keysKnown = new WeakMap<Strand, string>();

function meaningKey(situations: Situations, strand: Strand): string {
  const known = keysKnown.get(strand) ?? keyedMeaning(situations, strand);
  keysKnown.set(strand, known);
  return known;
}

function keyedMeaning({ store }: Situations, { reached, tracks, known }: Strand): string {
  return [
    reached.id,
    ...tracks.map((track) => store.choose(reached, track, store.constant(0n)).id),
    ...known.map((region) => store.and(reached, region).id),
  ].join(',');
}

function sameDebts(situations: Situations, a: Strand, b: Strand): boolean {
  const { store } = situations;
  const none = store.constant(notOwed);
  return [...new Set([...a.owed.keys(), ...b.owed.keys()])].every((key) => {
    const [x, y] = [a.owed.get(key), b.owed.get(key)];
    const alike = (p: ByScenario<number> = none, q: ByScenario<number> = none): boolean =>
      store.choose(a.reached, p, none) === store.choose(b.reached, q, none);
    const ends = x?.atHoldEnds ?? y?.atHoldEnds ?? [];
    return alike(x?.since, y?.since) && ends.every((_, level) => alike(x?.atHoldEnds[level], y?.atHoldEnds[level]));
  });
}

/** Strands in which what has grown from the one pass to the next has no upper end any more. */
function endless(situations: Situations, entering: readonly Strand[], came: readonly Strand[]): readonly Strand[] {
  const { store } = situations;
  const earlier = new Map(entering.map((strand) => [meaningKey(situations, strand), strand]));
  return came.map((strand) => {
    const before = earlier.get(meaningKey(situations, strand));
    if (before === undefined) return strand;
    const grown = (clock: Stopwatch, earlier: Stopwatch | undefined): Stopwatch =>
      earlier === undefined
        ? clock
        : clock.later(situations, store.combine(earlier.total(situations), clock.total(situations), endlessTime));
    const owed = [...strand.owed].map(([key, debt]) => {
      const since = before.owed.get(key)?.since ?? store.constant(notOwed);
      return [key, { ...debt, since: store.combine(since, debt.since, endlessDebt) }] as const;
    });
    return {
      ...strand,
      now: grown(strand.now, before.now),
      laps: strand.laps.map((group, outer) => group.map((lap, inner) => grown(lap, before.laps[outer]?.[inner]))),
      owed: new Map(owed),
    };
  });
}

const endlessTime = (before: Interval, after: Interval): Interval =>
  after.most > before.most ? interval(0, Number.POSITIVE_INFINITY) : noTime;
const endlessDebt = (before: number, after: number): number => (after > before ? Number.POSITIVE_INFINITY : after);

function noteUntouched(course: Course, part: Repeat, number: number): void {
  const notes = course.ledger.repeats[number];
  if (notes === undefined || part.confirms === undefined) return;
  notes.untouched = course.situations.store.without(notes.passed.region, actsMaking(course, part, part.confirms.state));
}

/** Where some act inside a repeat makes anything of a state. */
function actsMaking(course: Course, part: Repeat, state: string): Region {
  const { situations, ledger, numbering } = course;
  const makers = new Set(
    situations.procedure.vocabulary.acts
      .filter((act) => act.makes.some((made) => made.state === state))
      .map((act) => act.name),
  );
  let region = situations.store.nowhere;
  for (const inner of flowIn(part.body)) {
    if (inner.kind !== 'step') continue;
    for (const act of ledger.steps[numbering.of(inner)]?.acts ?? []) {
      if (makers.has(act.act)) region = situations.store.or(region, act.reached.region);
    }
  }
  return region;
}
