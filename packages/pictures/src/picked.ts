/**
 * Values picked for conditions: an observation's value by its name, a reading's in SI. What is missing may be anything. Where two
 * cannot be together, the one that stands first counts: a panel puts what was picked last in front.
 */
export type Picked = Readonly<Record<string, string | number>>;

/** A time in seconds, from `least` to `most`; without `most` it has no upper end. */
export interface Times {
  readonly least: number;
  readonly most?: number;
}

/** Why there is nothing to draw, in a sentence for people. */
export interface Nothing {
  readonly kind: 'nothing';
  readonly reason: string;
}

/** How a reading is shown: `shown = SI / factor - offset`, `SI = (shown + offset) * factor`. */
export interface UnitShown {
  readonly name: string;
  readonly factor: number;
  readonly offset: number;
}

/** A condition that a value can be picked for. */
export type ToPick = ValuesToPick | NumberToPick;

interface ConditionToPick {
  readonly name: string;
  readonly label: string;
  /** Whether the work, what is taken in hand or what is covered depends on it. */
  readonly decides: boolean;
}

export interface ValuesToPick extends ConditionToPick {
  readonly kind: 'observation';
  readonly values: readonly ValueToPick[];
  /** The name of the value taken. */
  readonly value: string;
}

export interface ValueToPick {
  readonly name: string;
  readonly label: string;
  /** False where no situation covered has it. */
  readonly covered: boolean;
}

/** All values but `Threshold.si` in the unit shown. */
export interface NumberToPick extends ConditionToPick {
  readonly kind: 'reading';
  readonly unit: UnitShown;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly value: number;
  /** Where the procedure changes its ways, rising. */
  readonly thresholds: readonly Threshold[];
}

export interface Threshold {
  readonly value: number;
  /** As the sheet writes it. */
  readonly text: string;
  readonly si: number;
}

/** A value that was picked and cannot be, with what was taken for it; all in words. */
export interface Declined {
  readonly condition: string;
  readonly picked: string;
  /** Missing where the condition was left open. */
  readonly taken?: string;
}

/** One situation, how it was come by and how it is said. */
export interface SituationShown {
  /** A value for every condition. */
  readonly picked: Picked;
  /** What was picked and lies outside of what is covered. */
  readonly declined: readonly Declined[];
  /** The situation as tests of the language, one for each condition that the procedure speaks of: `break is star`. */
  readonly suppose: readonly string[];
}
