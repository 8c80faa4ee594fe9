import type { Operation, Region } from '@quarrel/analysis';
import type { Step } from '@quarrel/model';
import type { Ran } from '../rule.js';
import { fillingSteps, heldFor } from './fills.js';

/**
 * Where a longer press speaks for a step, whichever way the work goes: one long press is enough, so a job is judged by the longest
 * of its holds, and where several are as long, by the last. A job that never comes to its end is not judged.
 */
export function outlasted(step: Step, number: number, work: Ran): Region {
  const { store } = work.run.situations;
  const held = lasts(step, number, work);
  const speaking = new Set(
    fillingSteps(work)
      .filter((other) => {
        const time = lasts(other.step, other.number, work);
        return time > held || (time === held && other.number > number);
      })
      .map((other) => other.number),
  );
  return store.not(store.and(comesWithout(speaking, number, work), goesOnWithout(speaking, number, work)));
}

/** The time for which a press is sure to last, in seconds; one whose hold cannot be read may last for ever. */
function lasts(step: Step, number: number, { run }: Ran): number {
  if (step.unreadHold !== undefined) return Number.POSITIVE_INFINITY;
  return Math.max(heldFor(step), run.steps[number]?.meanwhile?.least ?? 0);
}

/** The situations in which the work can come to a step without having done any of some others. */
function comesWithout(others: ReadonlySet<number>, number: number, work: Ran): Region {
  const { run, steps } = work;
  const { store } = run.situations;
  let open = run.covered;
  for (const at of steps.slice(0, number).keys()) {
    const passed = run.steps[at]?.before.reached ?? store.nowhere;
    if (others.has(at)) open = store.without(open, passed);
    for (const { level, known } of foundAgainAt(at, work)) {
      const renewed = store.forget(store.and(open, known), level, either);
      open = store.or(open, store.and(renewed, run.covered));
    }
  }
  return open;
}

/** The situations from which the work can go on behind a step to its end without doing any of some others. */
function goesOnWithout(others: ReadonlySet<number>, number: number, work: Ran): Region {
  const { run, steps } = work;
  const { store } = run.situations;
  let open = run.end.moment.reached;
  for (let at = steps.length - 1; at >= number; at -= 1) {
    for (const { level, known } of foundAgainAt(at, work)) {
      open = store.or(open, store.and(store.forget(open, level, either), known));
    }
    if (others.has(at)) open = store.without(open, run.steps[at]?.before.reached ?? store.nowhere);
  }
  return open;
}

const either: Operation<boolean, boolean, boolean> = (a, b) => a || b;

/** What a step finds out again: the level of each condition, and where it is known already when the step is done. */
function foundAgainAt(
  number: number,
  { run, layout }: Ran,
): readonly { readonly level: number; readonly known: Region }[] {
  return (layout.foundAgain.get(number) ?? []).flatMap((condition) => {
    const level = run.situations.levelOf(condition);
    const before = run.steps[number]?.before;
    if (level === undefined || before === undefined) return [];
    return [{ level, known: run.situations.store.and(before.reached, before.mayKnow(condition)) }];
  });
}
