import { type Quantity, type Step, spokenDuration } from '@quarrel/model';
import type { Mend } from '../finding.js';
import { addLast } from './clauses.js';

/** A hold that is at least as long as asked, otherwise as it is. */
export function heldAtLeast(step: Step, least: Quantity): readonly Mend[] {
  return holding(step, leastHeld(step, least));
}

/** The hold of a step as it is written when it is at least as long as asked. */
export function leastHeld({ hold }: Step, least: Quantity): string {
  if (hold === undefined) return least.text;
  if (hold.most === undefined) return `at least ${least.text}`;
  return hold.most.si > least.si ? `${least.text} to ${hold.most.text}` : least.text;
}

/** A hold that is at most as long as asked, otherwise as it is. */
export function heldAtMost(step: Step, most: Quantity): readonly Mend[] {
  const least = step.hold?.least;
  if (least === undefined) return holding(step, `at most ${most.text}`);
  return holding(step, least.si < most.si ? `${least.text} to ${most.text}` : most.text);
}

/** A hold that lets something be done that takes up to `seconds`; none where that has no end. */
export function heldFor(step: Step, seconds: number): readonly Mend[] {
  if (!Number.isFinite(seconds) || seconds <= 0) return [];
  // Durations are written to the millisecond; a hold that is a trifle too short would still be too short.
  const text = spokenDuration(Math.ceil(seconds * 1000 - 1e-6) / 1000);
  const least = step.hold?.least;
  if (step.hold === undefined) return holding(step, text);
  return holding(step, least === undefined ? `at most ${text}` : `${least.text} to ${text}`);
}

function holding(step: Step, text: string): readonly Mend[] {
  if (step.hold !== undefined) return [{ title: `Hold ${text}`, edits: [{ range: step.hold.range, text }] }];
  const edit = addLast(step, `hold ${text}`);
  return edit === undefined ? [] : [{ title: `Add hold ${text}`, edits: [edit] }];
}
