import type { Measure, SignalWord, ThingKind, Value } from '@quarrel/model';

/**
 * A compiled checklist: what a procedure asks of one situation, of some, or of all it covers, in order and on the clock.
 * Plain data; whoever renders it only words it. Times are seconds.
 */
export interface Checklist {
  readonly procedure: ProcedureIdentity;
  /** SHA-256 of what was compiled: the procedure and what was supposed. */
  readonly digest: string;
  /** The procedure has faults; nobody may work from this. */
  readonly draft: boolean;
  readonly scope: Scope;
  /** Cautions that hold throughout the job, most serious first. */
  readonly cautions: readonly ChecklistCaution[];
  readonly kit: Kit;
  /** The published or house limits to be kept; looked at before the work begins. */
  readonly limits: readonly ChecklistLimit[];
  /** The steps in the shape of the procedure; what the situation decides is decided. */
  readonly flow: readonly FlowPart[];
  /** Every step that can come, in order. */
  readonly steps: readonly ChecklistStep[];
  /** From the start to the end of the last step; missing where no way of doing the job comes to the end. */
  readonly total?: TimeRange;
  /** The ways in which the work can stop before its end, one entry for each reason. */
  readonly stops: readonly ChecklistStop[];
  /** Where its cautions come from, each caution once. */
  readonly sources: readonly ChecklistSource[];
  /** What every output says, whatever else it leaves out. */
  readonly notice: readonly string[];
}

export interface ProcedureIdentity {
  readonly name: string;
  readonly label: string;
  readonly revision?: string;
  readonly documentation?: string;
}

/** Which jobs the checklist is for. Texts are for people, with the labels of the sheet. */
export interface Scope {
  /** What was supposed when it was compiled; empty for every situation covered. */
  readonly supposed: readonly string[];
  /** What the procedure covers; empty where it sets no limits. */
  readonly covers: readonly string[];
}

/** From `least` to `most` in seconds; a missing end is open. */
export interface TimeRange {
  readonly least?: number;
  readonly most?: number;
}

/** When a step starts, in seconds from the start of the job; without `latest` there is no telling. */
export interface ClockWindow {
  readonly earliest: number;
  readonly latest?: number;
}

/** A value in the unit it is spoken of in. */
export interface ChecklistQuantity {
  readonly value: number;
  /** The unit's name in the language: `°C`. */
  readonly unit: string;
  readonly text: string;
}

export interface QuantityRange {
  readonly least?: ChecklistQuantity;
  readonly most?: ChecklistQuantity;
  /** Both ends in words: `4 to 6 drops`. */
  readonly text: string;
}

/** When something applies. */
export interface Circumstance {
  /** A test that the language reads back: `break is star`. */
  readonly test: string;
  /** The same for people, with labels: `Break type is star`. */
  readonly text: string;
}

export type FlowPart =
  /** `step` is the id of a step in `Checklist.steps`; `meanwhile` is done during its hold. */
  | { readonly kind: 'step'; readonly step: string; readonly meanwhile: readonly FlowPart[] }
  | { readonly kind: 'stage'; readonly label: string; readonly body: readonly FlowPart[] }
  | {
      /** The first case that holds is done; if none holds, `otherwise`. */
      readonly kind: 'branch';
      readonly cases: readonly BranchCase[];
      readonly otherwise?: BranchCase;
    }
  | {
      readonly kind: 'repeat';
      /** What is looked for after each pass. */
      readonly until?: string;
      /** The most passes; missing where there is no bound. */
      readonly atMost?: number;
      readonly body: readonly FlowPart[];
      readonly orElseStop?: string;
      /** All its passes together; missing where no way leads out of it. */
      readonly time?: TimeRange;
    }
  | { readonly kind: 'stop'; readonly reason: string };

export interface BranchCase {
  readonly circumstance: Circumstance;
  readonly body: readonly FlowPart[];
}

export interface ChecklistStep {
  /** As the page counts it: `7`, or `7.1` for the first step done during the hold of step 7. */
  readonly number: string;
  readonly id: string;
  readonly text: string;
  readonly documentation?: string;
  /** The id of the step during whose hold it is done. */
  readonly during?: string;
  /** Where it applies, as a test of the language; missing where it always does. */
  readonly applies?: string;
  readonly acts: readonly Named[];
  /** To be read before the step is begun, most serious first. */
  readonly cautions: readonly ChecklistCaution[];
  readonly things: readonly ThingInHand[];
  /** The name of the resin taken in hand, where one is and the situation leaves no doubt which. */
  readonly resin?: string;
  readonly takes?: TimeRange;
  readonly hold?: TimeRange;
  readonly clock: ClockWindow;
  readonly checks: readonly ChecklistCheck[];
  readonly readings: readonly ChecklistReading[];
  readonly observations: readonly ChecklistObservation[];
  readonly notes: readonly string[];
  readonly photos: readonly string[];
}

export interface Named {
  readonly name: string;
  readonly label: string;
}

export interface ChecklistCaution {
  readonly signal: SignalWord;
  /** What can hurt. */
  readonly label: string;
  /** The hazard's name; missing for a caution in the sheet's own words. */
  readonly hazard?: string;
  readonly measures: readonly Measure[];
  readonly source?: string;
}

export interface ChecklistSource {
  /** The label of the caution. */
  readonly of: string;
  readonly source: string;
}

/** What a step takes in hand: one thing, or one of several by the situation. */
export interface ThingInHand {
  readonly kind: ThingKind;
  /** In the order in which they are asked; the last may be for all the rest. Empty where nothing is chosen. */
  readonly options: readonly ThingOption[];
  readonly amount?: QuantityRange;
}

export interface ThingOption {
  readonly name: string;
  readonly label: string;
  /** When it is this one; missing where it always is. */
  readonly circumstance?: Circumstance;
}

/** Something that must be seen. */
export interface ChecklistCheck {
  readonly text: string;
  readonly orElseStop?: string;
}

export interface ChecklistReading extends Named {
  readonly accept?: QuantityRange;
  readonly orElseStop?: string;
  /** What the checklist supposes of it. */
  readonly supposed: readonly string[];
}

export interface ChecklistObservation extends Named {
  readonly values: readonly ChecklistValue[];
  /** What the checklist supposes of it. */
  readonly supposed: readonly string[];
}

export interface ChecklistValue extends Pick<Value, 'name' | 'label'> {
  /** False where the checklist is not for such a job. */
  readonly covered: boolean;
}

/** A line that a profile of limits draws. A job beyond it is not to be done by this checklist. */
export interface ChecklistLimit {
  readonly profile: Named;
  /** What has to be so. */
  readonly allows: Circumstance;
  /** Where it has to be so; missing for every job. */
  readonly when?: Circumstance;
  /** What has to be known to tell. */
  readonly asks: readonly Named[];
  /** Labels of other profiles that draw the same line. */
  readonly alsoIn?: readonly string[];
  readonly because?: string;
  readonly source?: string;
}

export interface Kit {
  readonly things: readonly KitItem[];
  readonly wear: readonly WearItem[];
}

export interface KitItem extends Named {
  readonly kind: ThingKind;
  readonly uses: readonly KitUse[];
  /** Ids of the steps that take it in hand. */
  readonly steps: readonly string[];
}

/** How much of a thing a whole job takes: summed for what is used up, the largest for what is used again. */
export interface KitUse {
  readonly amounts: readonly QuantityRange[];
  /** False where a job can do without it. */
  readonly sure: boolean;
  /** In which jobs; missing for all. */
  readonly circumstance?: Circumstance;
}

export interface WearItem {
  readonly text: string;
  /** Labels of the hazards that ask for it. */
  readonly against: readonly string[];
}

export interface ChecklistStop {
  readonly reason: string;
  /** Ids of the steps in which it can happen; empty where it is the flow that stops. */
  readonly steps: readonly string[];
  /** From the start of the job until it stops. */
  readonly total: TimeRange;
}
