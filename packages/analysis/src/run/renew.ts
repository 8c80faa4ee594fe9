import { type ByScenario, nodesOf, type Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import { forgetOnClock, type Stopwatch } from './clock.js';
import { hull, never } from './interval.js';
import { framesOf, keyOf, most, notOwed, type Owed, type Strand, union, within } from './strand.js';

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
