import type { Region } from '@quarrel/analysis';
import type { Step } from '@quarrel/model';
import type { Ran } from '../rule.js';
import { isSomewhere } from '../work.js';
import { fillingSteps, heldFor } from './fills.js';
import { comesWithout, goesOnWithout } from './ways.js';

/**
 * Where a longer press speaks for a step, whichever way the work goes: one long press is enough, so a job is judged by the longest
 * of its holds, and where several are as long, by the last that is done. A job that never comes to its end is not judged. Where
 * it cannot be told, as by a test that cannot be read, a longer press is taken to speak.
 */
export function outlasted(step: Step, number: number, work: Ran): Region {
  const { store } = work.run.situations;
  const time = lasts(step, number, work);
  // Mostly the longest presses of all speak for all others: they are asked first, once for all steps.
  const openFor = ({ before, behind }: Ways): Region =>
    store.and(before[number] ?? store.nowhere, behind[number] ?? store.nowhere);
  const isOpen = time === keptOf(work).longest || isSomewhere(work, openFor(ways('longest', work)));
  return isOpen ? store.not(openFor(ways(time, work))) : store.everywhere;
}

/** The time for which a press is sure to last, in seconds; one whose hold cannot be read may last for ever. */
function lasts(step: Step, number: number, { run }: Ran): number {
  if (step.unreadHold !== undefined) return Number.POSITIVE_INFINITY;
  return Math.max(heldFor(step), run.steps[number]?.meanwhile?.least ?? 0);
}

/** The ways past every step, by its number, without a longer press. */
interface Ways {
  /** The situations in which the work can come to it with none that is longer than a time. */
  readonly before: readonly Region[];
  /** The situations in which it can go on behind it to the end of the work with none that is as long or longer. */
  readonly behind: readonly Region[];
}

interface Kept {
  readonly presses: readonly { readonly number: number; readonly time: number }[];
  /** The time of the longest of them. */
  readonly longest: number;
  readonly ways: Map<number | 'longest', Ways>;
}

const kept = new WeakMap<Ran, Kept>();

function keptOf(work: Ran): Kept {
  const known = kept.get(work);
  if (known !== undefined) return known;
  const presses = fillingSteps(work).map(({ step, number }) => ({ number, time: lasts(step, number, work) }));
  const fresh: Kept = { presses, longest: Math.max(...presses.map(({ time }) => time)), ways: new Map() };
  kept.set(work, fresh);
  return fresh;
}

/** The ways past a press that lasts so many seconds, or past any that is not one of the longest; found out once for each. */
function ways(seconds: number | 'longest', work: Ran): Ways {
  const { ways: known, presses, longest } = keptOf(work);
  const those = (isMeant: (time: number) => boolean): ReadonlySet<number> =>
    new Set(presses.filter(({ time }) => isMeant(time)).map(({ number }) => number));
  const found = known.get(seconds) ?? {
    before: comesWithout(
      those((time) => (seconds === 'longest' ? time === longest : time > seconds)),
      work,
    ),
    behind:
      seconds === longest
        ? ways('longest', work).behind
        : goesOnWithout(
            those((time) => time >= (seconds === 'longest' ? longest : seconds)),
            work,
          ),
  };
  known.set(seconds, found);
  return found;
}
