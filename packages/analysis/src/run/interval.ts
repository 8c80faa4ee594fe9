import type { Span } from '@quarrel/model';
import type { Interval } from './records.js';

const interned = new Map<number, Map<number, Interval>>();

/** The interval from `least` to `most` seconds; equal ones are one object, so that diagrams can hold them. */
export function interval(least: number, most: number): Interval {
  let byMost = interned.get(least);
  if (byMost === undefined) {
    byMost = new Map();
    interned.set(least, byMost);
  }
  let found = byMost.get(most);
  if (found === undefined) {
    found = { least, most };
    byMost.set(most, found);
  }
  return found;
}

export const noTime = interval(0, 0);

/** The empty interval: the hull of it and another one is the other one. */
export const never = interval(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY);

/** A span of time in seconds: what is missing is nothing at the low end and without end at the high one. */
export function secondsOf(span: Span | undefined): Interval {
  if (span === undefined) return noTime;
  return interval(span.least?.si ?? 0, span.most?.si ?? Number.POSITIVE_INFINITY);
}

export const plus = (a: Interval, b: Interval): Interval => interval(exact(a.least + b.least), exact(a.most + b.most));

/** Both going on at once: over when the longer one is. */
export const longer = (a: Interval, b: Interval): Interval =>
  interval(Math.max(a.least, b.least), Math.max(a.most, b.most));

/** Either of the two. */
export const hull = (a: Interval, b: Interval): Interval =>
  interval(Math.min(a.least, b.least), Math.max(a.most, b.most));

/** Sums of decimal seconds without the digits that binary arithmetic adds. */
function exact(seconds: number): number {
  return Number.isFinite(seconds) ? Math.round(seconds * 1e6) / 1e6 : seconds;
}
