import type { Quantity, Span } from './quantity.js';
import type { SourceRange } from './source.js';
import type { Test } from './test.js';
import type { Dimension } from './units.js';

/** What every declaration has. Names are unique within their kind of declaration. */
export interface Declaration {
  readonly name: string;
  /** The words for people; the name where the sheet gives none. */
  readonly label: string;
  /** The text of the doc comment above it, if there is one. */
  readonly documentation?: string;
  /** Where its name stands. */
  readonly range: SourceRange;
}

export interface Value {
  readonly name: string;
  readonly label: string;
  readonly range: SourceRange;
}

/** A condition seen by eye: one of its values is true of a job. */
export interface Observation extends Declaration {
  readonly kind: 'observation';
  readonly values: readonly Value[];
}

/** A condition read from an instrument: any value from `low` to `high`, both ends included. */
export interface Reading extends Declaration {
  readonly kind: 'reading';
  readonly dimension: Dimension;
  readonly low: Quantity;
  readonly high: Quantity;
}

export type Condition = Observation | Reading;

/** What the work changes. The first value is the one a job starts with. */
export interface State extends Declaration {
  readonly kind: 'state';
  readonly values: readonly Value[];
}

/** ANSI Z535 / ISO 3864-2 signal words, most serious first. */
export type SignalWord = 'danger' | 'warning' | 'caution' | 'notice';

export interface Hazard extends Declaration {
  readonly kind: 'hazard';
  readonly signal: SignalWord;
  readonly measures: readonly Measure[];
  readonly source?: string;
}

/** What protects: something to wear, or something to do. */
export interface Measure {
  readonly kind: 'wear' | 'do';
  readonly text: string;
}

export interface Act extends Declaration {
  readonly kind: 'act';
  /** All of them have to be met before the act. */
  readonly needs: readonly Need[];
  readonly makes: readonly StateValue[];
  /** Names of hazards. */
  readonly raises: readonly string[];
  readonly source?: string;
}

export interface Need {
  /** The name after `as`: the rule a finding carries. */
  readonly rule?: string;
  readonly test: Test;
  readonly because?: string;
  readonly source?: string;
  readonly range: SourceRange;
}

/** A state and the value it takes. */
export interface StateValue {
  readonly state: string;
  readonly value: string;
  readonly range: SourceRange;
}

export type Severity = 'error' | 'warning' | 'info';

/** The temporal patterns of Dwyer, Avrunin and Corbett (ICSE 1999), and a bound on the hold of an act. */
export type Pattern =
  | { readonly kind: 'precedence'; readonly first: string; readonly later: string }
  /** `within` runs from the start of one step to the start of the other. */
  | { readonly kind: 'response'; readonly trigger: string; readonly response: string; readonly within?: Quantity }
  | { readonly kind: 'absence'; readonly act: string; readonly after: string }
  | { readonly kind: 'final'; readonly test: Test }
  | {
      readonly kind: 'hold';
      readonly act: string;
      readonly bound: 'at-least' | 'at-most';
      readonly quantity: Quantity;
    };

export interface Rule extends Declaration {
  readonly kind: 'rule';
  readonly severity: Severity;
  readonly pattern: Pattern;
  /** Where the rule asks for something; everywhere if missing. Looked at where the rule could be broken. */
  readonly when?: Test;
  readonly because?: string;
  readonly source?: string;
}

export type ThingKind = 'tool' | 'resin' | 'lamp' | 'injector' | 'consumable';

/** Something the work uses, with the values of its datasheet. */
export interface Thing extends Declaration {
  readonly kind: ThingKind;
  readonly properties: readonly Property[];
}

/** A line of a datasheet: `viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C`. */
export interface Property {
  readonly name: string;
  readonly entries: readonly PropertyEntry[];
  readonly range: SourceRange;
}

export interface PropertyEntry {
  readonly value: Span;
  /** What follows `at` or `under`. */
  readonly at?: Quantity;
}

/** A published or house profile of what may be repaired. */
export interface Limits extends Declaration {
  readonly kind: 'limits';
  readonly allowances: readonly Allowance[];
}

/** Where `when` holds, only situations in which `test` holds may be repaired. */
export interface Allowance {
  readonly test: Test;
  readonly when?: Test;
  readonly because?: string;
  readonly source?: string;
  readonly range: SourceRange;
}

/** What estimates of one topic take for granted. */
export interface Assumptions {
  readonly kind: 'assumptions';
  /** What is estimated: `filling`, `curing`. */
  readonly topic: string;
  readonly label: string;
  /** The acts during which it happens. */
  readonly acts: readonly string[];
  readonly lines: readonly Assumed[];
  readonly range: SourceRange;
}

/** Something that is taken for granted. */
export interface Assumed {
  /** `gap`, `length`, `temperature`. */
  readonly property: string;
  /** How much, or the name of the reading that tells. */
  readonly amount:
    | { readonly kind: 'value'; readonly span: Span }
    | { readonly kind: 'reading'; readonly name: string };
  /** Where it is assumed; everywhere if missing. */
  readonly when?: Test;
  readonly because?: string;
  readonly source?: string;
  readonly range: SourceRange;
}

/** Everything a procedure can speak of: what its sheet declares and what it uses of other sheets. */
export interface Vocabulary {
  readonly observations: readonly Observation[];
  readonly readings: readonly Reading[];
  readonly states: readonly State[];
  readonly hazards: readonly Hazard[];
  readonly acts: readonly Act[];
  readonly rules: readonly Rule[];
  readonly things: readonly Thing[];
  readonly limits: readonly Limits[];
  /** What used sheets assume first, what the sheet itself assumes last; of two lines that both hold the last counts. */
  readonly assumptions: readonly Assumptions[];
}
