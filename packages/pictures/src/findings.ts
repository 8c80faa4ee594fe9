import type { Region, Run } from '@quarrel/analysis';
import type { Finding } from '@quarrel/checks';
import { type Choice, type Procedure, type SourceRange, type Step, stepsOf, type Test } from '@quarrel/model';
import type { Pictured } from './pictured.js';
import type { FindingShown } from './timeline/timeline.js';

/** A finding of a procedure, with where it stands and happens. */
export interface Placed {
  readonly shown: FindingShown;
  /** The numbers of the steps it belongs to: the one it stands in, or those that take a choice it stands in; none else. */
  readonly steps: readonly number[];
  /** Where it happens; missing where it does not depend on the situation. */
  readonly where?: Test;
}

/** The findings of a procedure; what is wrong with other parts of its sheet is left out. */
export function placedIn({ procedure, findings, read }: Pictured): readonly Placed[] {
  const steps = stepsOf(procedure);
  return findings
    .filter((finding) => isOf(finding, procedure))
    .map((finding) => {
      const { rule, severity, message, range, situation } = finding;
      return {
        shown: { rule, severity, message, range, ...(situation === undefined ? {} : { where: situation.region }) },
        steps: stepsAt(range, steps, procedure.choices),
        ...(situation === undefined ? {} : { where: read(situation.region) }),
      };
    });
}

function isOf({ procedure: name, range }: Finding, procedure: Procedure): boolean {
  if (name !== undefined) return name === procedure.name;
  return procedure.clauses !== undefined && isWithin(range, procedure.clauses);
}

function stepsAt(range: SourceRange, steps: readonly Step[], choices: readonly Choice[]): readonly number[] {
  // Of steps around one another the innermost stands last.
  const around = steps.findLastIndex((one) => isWithin(range, one.whole ?? one.range));
  if (around >= 0) return [around];
  const choice = choices.find((one) =>
    [one, ...one.cases, ...(one.otherwise === undefined ? [] : [one.otherwise])].some((part) =>
      isWithin(range, part.range),
    ),
  );
  if (choice === undefined) return [];
  const takes = ({ effects }: Step): boolean =>
    effects.some((effect) => effect.kind === 'with' && effect.isChoice && effect.thing === choice.name);
  return steps.flatMap((step, number) => (takes(step) ? [number] : []));
}

/** Whether a finding happens in some situations that a run meets: at some steps, or anywhere for what belongs to none. */
export function happens({ where }: Placed, steps: readonly number[], run: Run, within: Region): boolean {
  const { store } = run.situations;
  const places = steps.length === 0 ? [metAnywhere(run)] : steps.map((step) => metIn(step, run));
  const met = store.and(
    places.reduce((a, b) => store.or(a, b)),
    within,
  );
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
