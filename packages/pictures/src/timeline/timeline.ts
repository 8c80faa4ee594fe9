import type { Severity, SourceRange, ThingKind } from '@quarrel/model';
import type { SituationShown, Times, ToPick } from '../picked.js';

/** A procedure in one situation, step by step against the clock. Plain data; whoever draws it only words it. Times are seconds. */
export interface Timeline {
  readonly procedure: Identity;
  readonly situation: SituationShown;
  /** What to pick from, in the order in which the procedure speaks of it. */
  readonly conditions: readonly ToPick[];
  /** What is done, in order and in the shape of the procedure; what the situation decides is decided. */
  readonly parts: readonly Part[];
  /** From the start to the end; missing where no way of doing the job comes to the end. */
  readonly total?: Times;
  /** Every way in which the work can stop before its end. */
  readonly stops: readonly StopShown[];
  /** Findings that hold in this situation and stand at no step that is done in it. */
  readonly findings: readonly FindingShown[];
}

export interface Identity {
  readonly name: string;
  readonly label: string;
  /** Where its name stands. */
  readonly range: SourceRange;
}

export type Part = StagePart | StepPart | BranchPart | RepeatPart | StopPart;

export interface StagePart {
  readonly kind: 'stage';
  readonly label: string;
  readonly range: SourceRange;
  readonly parts: readonly Part[];
}

export interface StepPart {
  readonly kind: 'step';
  readonly id: string;
  /** As the checklist counts it: `7`, or `7.1` for the first step done during the hold of step 7. */
  readonly number: string;
  readonly text: string;
  /** All of the step in the text. */
  readonly range: SourceRange;
  /** When it starts, from the earliest to the latest; in a repeat, of all passes. */
  readonly start: Times;
  /** When what follows can start; missing where the work always stops in it. */
  readonly end?: Times;
  readonly takes?: Times;
  readonly hold?: Times;
  /** What is taken in hand. */
  readonly things: readonly ThingShown[];
  /** What is done during the hold. */
  readonly meanwhile: readonly Part[];
  /** Reasons for which the work can stop in it. */
  readonly stops: readonly string[];
  readonly findings: readonly FindingShown[];
}

export interface ThingShown {
  readonly kind: ThingKind;
  /** One; several where the situation leaves open which; none where nothing is chosen. */
  readonly options: readonly Named[];
}

export interface Named {
  readonly name: string;
  readonly label: string;
}

/** Ways that the situation leaves open: something is looked at again, or a test could not be read. */
export interface BranchPart {
  readonly kind: 'branch';
  readonly ways: readonly Way[];
}

export interface Way {
  /** When it is taken, as a test of the language; missing where the test in the sheet could not be read. */
  readonly circumstance?: string;
  readonly parts: readonly Part[];
}

export interface RepeatPart {
  readonly kind: 'repeat';
  readonly range: SourceRange;
  /** What is looked for after each pass. */
  readonly until?: string;
  /** The most passes; missing where there is no bound. */
  readonly atMost?: number;
  /** All its passes together; missing where no way leads out of it. */
  readonly time?: Times;
  readonly orElseStop?: string;
  readonly parts: readonly Part[];
}

export interface StopPart {
  readonly kind: 'stop';
  readonly reason: string;
  readonly range: SourceRange;
  readonly at: Times;
}

export interface StopShown {
  readonly reason: string;
  /** The step in which it happens; missing for a stop between steps and behind a repeat. */
  readonly step?: string;
  readonly range: SourceRange;
  /** The clock when the work stops. */
  readonly at: Times;
}

export interface FindingShown {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  /** Where it happens, as a test of the language; missing where it does not depend on the situation. */
  readonly where?: string;
  readonly range: SourceRange;
}
