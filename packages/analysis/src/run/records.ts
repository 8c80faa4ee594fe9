import type { ByScenario, Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import type { Clock } from './clock.js';

/** From the least to the most, in seconds; `most` may be infinite. Interned: equal intervals are one object. */
export interface Interval {
  readonly least: number;
  readonly most: number;
}

/**
 * What a procedure means: for every situation, which steps are reached when, in which states, with what in hand. Regions are
 * sets of current situations (docs/meaning.md). Everything is numbered, so that a run outlives moved lines: steps as `stepsOf`
 * numbers them, cases, repeats and stops in program order, effects and needs by their index.
 */
export interface Run {
  readonly situations: Situations;
  /** The situations a job can start in: those covered, as far as the supposition goes. */
  readonly covered: Region;
  readonly steps: readonly StepRecord[];
  /** One entry for every case of every `when`, in program order. */
  readonly cases: readonly CaseRecord[];
  /** One entry for every `when`, in program order: where none of its cases holds. */
  readonly fallthroughs: readonly Region[];
  readonly repeats: readonly RepeatRecord[];
  /** Every way to stop that some run takes. */
  readonly stops: readonly StopRecord[];
  readonly end: EndRecord;
}

/** A moment of the work, over all runs that come to it. */
export interface Moment {
  readonly reached: Region;
  /** The clock at that moment. */
  readonly clock: Clock;
  /** The values that a state can have; empty where no run comes. */
  state(name: string): ByScenario<ReadonlySet<string>>;
  /** Where some run knows the condition. */
  mayKnow(condition: string): Region;
  /** Where some run does not. */
  mayNotKnow(condition: string): Region;
}

export interface StepRecord {
  /** At its start. */
  readonly before: Moment;
  /** Behind its end. */
  readonly after: Moment;
  /** One entry for every `act` effect, in order. */
  readonly acts: readonly ActRecord[];
  /** One entry for every `with` effect, in order. */
  readonly things: readonly ThingRecord[];
  /** Where what is done meanwhile may take longer, at its most, than the hold at its most. */
  readonly outlasted: Region;
  /** The time its meanwhile takes where it has one. */
  readonly meanwhile?: Interval;
}

export interface ActRecord {
  /** Index in `Step.effects`. */
  readonly effect: number;
  readonly act: string;
  readonly reached: Region;
  /** For every need of the act: where some run does not meet it. */
  readonly unmet: readonly Region[];
  /** For every hazard the act raises: where some run has not announced it. */
  readonly unannounced: readonly { readonly hazard: string; readonly region: Region }[];
  /** Where some run has done the act asked about before this effect. */
  mayHaveDone(act: string): Region;
  /** Where some run has not. */
  mayNotHaveDone(act: string): Region;
  /** For every response asked about (by its index): where it comes too late here. */
  readonly late: readonly { readonly response: number; readonly region: Region }[];
  /** For every response asked about that this act triggers: where some run reaches the end without it. */
  readonly unanswered: readonly { readonly response: number; readonly region: Region }[];
}

export interface ThingRecord {
  /** Index in `Step.effects`. */
  readonly effect: number;
  readonly reached: Region;
  /** The thing taken in hand; `undefined` in a gap and where no run comes. */
  readonly thing: ByScenario<string | undefined>;
  /** Present where the effect takes a choice. */
  readonly choice?: ChoiceRecord;
}

export interface ChoiceRecord {
  /** Index in `Procedure.choices`. */
  readonly choice: number;
  /** For every case: where its test holds and some run comes, earlier cases or not. */
  readonly cases: readonly Region[];
  /** Where no case holds. */
  readonly rest: Region;
  /** Pairs of cases, earlier first, that both hold and give different things. */
  readonly clashes: readonly { readonly earlier: number; readonly later: number; readonly region: Region }[];
  /** Conditions that a case asks about and some run does not know. */
  readonly unknown: readonly { readonly condition: string; readonly region: Region }[];
}

export interface CaseRecord {
  /** Where some run asks this case's test. */
  readonly asked: Region;
  /** Where it then holds. */
  readonly holds: Region;
  /** True where the test could not be read, so that it may come out either way. */
  readonly free: boolean;
  /** Conditions that the test asks about and some run does not know. */
  readonly unknown: readonly { readonly condition: string; readonly region: Region }[];
}

export interface RepeatRecord {
  /** Where some run enters it. */
  readonly entered: Region;
  /** Where some run goes on behind it or could: every pass of it ends before its end elsewhere. */
  readonly passed: Region;
  /** Where no act of a pass makes anything of the state that the goal confirms; empty if it confirms none. */
  readonly untouched: Region;
  /** The time from its start to behind it, over all situations; missing where no run comes out of it. */
  readonly time?: Interval;
}

export interface StopRecord {
  readonly reason: string;
  /**
   * What stops: the stop, repeat, or effect of a step; numbers as in `Run`. Stops and repeats are numbered in program order.
   */
  readonly by:
    | { readonly kind: 'stop'; readonly stop: number }
    | { readonly kind: 'repeat'; readonly repeat: number }
    | { readonly kind: 'effect'; readonly step: number; readonly effect: number };
  readonly region: Region;
  /** The clock when the work stops. */
  readonly clock: Clock;
}

export interface EndRecord {
  readonly moment: Moment;
  /** The situations at the start from which some run reaches the end. */
  readonly from: Region;
  /** For every final test asked about (by its index): where some run ends with it not met. */
  readonly unmet: readonly Region[];
}
