import type { SourceRange } from '@quarrel/model';
import type { Times, UnitShown } from '../picked.js';
import type { Identity, Named } from '../timeline/timeline.js';

/** What is asked of the holds. A name that means nothing here is passed over. */
export interface HoldsQuestion {
  /** The step looked at; missing: every step that presses resin in. */
  readonly step?: string;
}

/**
 * How long resin is estimated to need to the end of a leg, and how long it is held under pressure, against the temperature of the
 * glass. Plain data; whoever draws it only words it. Temperatures are in K, times in seconds.
 */
export interface Holds {
  readonly procedure: Identity;
  /** The reading that tells the temperature of the glass. */
  readonly reading: ReadingShown;
  readonly scales: Scales;
  /** Every step that presses resin in. */
  readonly steps: readonly Named[];
  /** The step looked at, where it is one. */
  readonly step?: string;
  readonly needs: readonly Need[];
  readonly presses: readonly PressShown[];
  /** What the estimates take for granted. */
  readonly assumptions: readonly AssumptionShown[];
  /** Why there is no estimate for something that is pressed in. */
  readonly missing: readonly Missing[];
}

/** The temperatures at which resin is pressed in, and the times that needs and holds come to. */
export interface Scales {
  readonly temperature: Scale;
  /** Meant to be drawn on a logarithmic scale. */
  readonly time: Scale;
}

export interface Scale extends Stretch {
  /** Round values, rising. */
  readonly marks: readonly number[];
}

export interface ReadingShown extends Named {
  readonly unit: UnitShown;
}

/** From the lower of two values to the higher. */
export interface Stretch {
  readonly low: number;
  readonly high: number;
}

/** A resin in a leg, and how long it needs. */
export interface Need {
  readonly resin: Named;
  /** Its datasheet. */
  readonly range: SourceRange;
  /** As the sheets write them. */
  readonly gap: string;
  readonly length: string;
  readonly pressure: string;
  /** When it is pressed in there, as a test of the language; `always` where it is whenever resin is pressed in. */
  readonly circumstance: string;
  /** The coldest and the warmest point of the datasheet. */
  readonly data: Stretch;
  /** The line, from cold to warm; it has gaps where the resin is not used and where its datasheet does not tell. */
  readonly parts: readonly NeedPart[];
  /** How long it needs at the round temperatures of the scale; those in gaps of the line are missing. */
  readonly atMarks: readonly NeedPoint[];
  /** Where the resin is used and its datasheet does not tell. */
  readonly untold: readonly Stretch[];
}

/** A stretch of a line on which the same has to be told beside it. */
export interface NeedPart {
  /** From cold to warm; between neighbours a straight line, on a logarithmic scale of time, is true to a thousandth. */
  readonly points: readonly NeedPoint[];
  readonly doubts: readonly Doubt[];
}

export interface NeedPoint {
  readonly temperature: number;
  readonly seconds: number;
}

/** Why an estimate is to be trusted less; as the physics says it. */
export type Doubt = (typeof doubts)[number];
export const doubts = [
  'single-point',
  'single-point-colder',
  'single-point-warmer',
  'colder-than-data',
  'warmer-than-data',
  'fits-loosely',
] as const;

/** A step that presses resin in. */
export interface PressShown {
  readonly id: string;
  readonly text: string;
  /** All of the step in the text. */
  readonly range: SourceRange;
  /** Missing where the step has none. */
  readonly hold?: Times;
  /** The temperatures at which it is done. */
  readonly done: readonly Stretch[];
  readonly against: readonly Against[];
}

/** A hold beside a need. */
export interface Against {
  /** Its place in `needs`. */
  readonly need: number;
  /** Where the step does this, how cold and how warm it can be. */
  readonly done: Stretch;
  /** Where the hold is shorter than the need, of the temperatures at which the step does this. */
  readonly short: 'nowhere' | 'below' | 'everywhere';
  /** Where the hold turns too short, be the step done there or not. */
  readonly turn?: TurnShown;
  /** Whether a longer press speaks for the step wherever its hold is too short. */
  readonly isOutlasted: boolean;
}

export interface TurnShown {
  readonly at: number;
  /** As findings say it. */
  readonly text: string;
  /** Whether the hold is as long as the need there; else the datasheet tells no further. */
  readonly isExact: boolean;
}

export interface AssumptionShown {
  /** `gap`. */
  readonly property: string;
  readonly text: string;
  /** Where it is assumed, as a test of the language; missing where it is everywhere. */
  readonly circumstance?: string;
  readonly because?: string;
  readonly source?: string;
  readonly range: SourceRange;
}

export interface Missing {
  readonly message: string;
  /** The line that would make an estimate possible. */
  readonly wakes: string;
  readonly range?: SourceRange;
}
