import type { Interval } from '@quarrel/analysis';
import type { Span } from '@quarrel/model';
import type { Times } from './picked.js';

export function timesOf({ least, most }: Interval): Times {
  return { least, ...(Number.isFinite(most) ? { most } : {}) };
}

/** A span of times as it is written; a missing least is nothing. */
export function timesOfSpan(span: Span): Times {
  return { least: span.least?.si ?? 0, ...(span.most === undefined ? {} : { most: span.most.si }) };
}
