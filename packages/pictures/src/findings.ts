import type { Region, Run } from '@quarrel/analysis';
import type { Finding } from '@quarrel/checks';
import { type Procedure, type SourceRange, type Step, stepsOf, type Test } from '@quarrel/model';
import type { Pictured } from './pictured.js';
import type { FindingShown } from './timeline/timeline.js';

/** A finding of a procedure, with where it stands and happens. */
export interface Placed {
  readonly shown: FindingShown;
  /** The number of the step it stands in; missing for what stands elsewhere. */
  readonly step?: number;
  /** Where it happens; missing where it does not depend on the situation. */
  readonly where?: Test;
}

/** The findings of a procedure; what is wrong with other parts of its sheet is left out. */
export function placedIn({ procedure, findings, read }: Pictured): readonly Placed[] {
  const steps = stepsOf(procedure);
  return findings.filter((finding) => isOf(finding, procedure)).map((finding) => place(finding, steps, read));
}

function isOf({ procedure: name, range }: Finding, procedure: Procedure): boolean {
  if (name !== undefined) return name === procedure.name;
  return procedure.clauses !== undefined && isWithin(range, procedure.clauses);
}

function place(finding: Finding, steps: readonly Step[], read: Pictured['read']): Placed {
  const { rule, severity, message, range, situation } = finding;
  // Of steps around one another the innermost stands last.
  const step = steps.findLastIndex((one) => isWithin(range, one.whole ?? one.range));
  return {
    shown: { rule, severity, message, range, ...(situation === undefined ? {} : { where: situation.region }) },
    ...(step < 0 ? {} : { step }),
    ...(situation === undefined ? {} : { where: read(situation.region) }),
  };
}

/** Whether a finding happens in some situations that a run meets: at its step, or anywhere for what stands at none. */
export function happens({ where, step }: Placed, run: Run, within: Region): boolean {
  const { store } = run.situations;
  const met = store.and(step === undefined ? metAnywhere(run) : metIn(step, run), within);
  if (met === store.nowhere) return false;
  return where === undefined || store.and(met, run.situations.region(where).holds) !== store.nowhere;
}

/** The situations of a step, before it and behind: what is looked at in it may come out new. */
function metIn(number: number, { steps, situations }: Run): Region {
  const record = steps[number];
  if (record === undefined) return situations.store.nowhere;
  const moments = [record.before.reached, record.after.reached, ...record.things.map((one) => one.reached)];
  return [...moments, ...record.acts.map((one) => one.reached)].reduce((a, b) => situations.store.or(a, b));
}

function metAnywhere({ covered, steps, situations }: Run): Region {
  return steps.reduce((region, { after }) => situations.store.or(region, after.reached), covered);
}

function isWithin(inner: SourceRange, outer: SourceRange): boolean {
  return inner.uri === outer.uri && !isBefore(inner.start, outer.start) && !isBefore(outer.end, inner.end);
}

function isBefore(a: SourceRange['start'], b: SourceRange['start']): boolean {
  return a.line < b.line || (a.line === b.line && a.column < b.column);
}
