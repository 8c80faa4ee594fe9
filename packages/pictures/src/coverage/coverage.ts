import type { Severity } from '@quarrel/model';
import type { Declined, Picked, SituationShown, Times, ToPick } from '../picked.js';
import type { Identity, Named } from '../timeline/timeline.js';

/** What a coverage is asked. Names that mean nothing here are passed over for what one would think of first. */
export interface CoverageQuestion {
  /** The condition along the top, and the one down the side; missing: the first two that the procedure tests. */
  readonly across?: string;
  readonly down?: string;
  /** What tells situations apart; missing: what is chosen, or else the time. */
  readonly by?: Aspect;
  /** The choice looked at; missing: the first. */
  readonly choose?: string;
  /** Values for other conditions. */
  readonly fixed: Picked;
}

export type Aspect = 'choice' | 'time' | 'findings';

/** Two conditions of a procedure as a grid; neighbouring cells in which the same comes out are one region. */
export interface Coverage {
  readonly procedure: Identity;
  /** What was answered: the question with everything filled in. */
  readonly by: Aspect;
  /** The choice looked at, where there is one. */
  readonly choice?: Named;
  readonly choices: readonly Named[];
  /** What can be laid along an axis, in the order in which the procedure speaks of it. */
  readonly axes: readonly Named[];
  /** Missing where the procedure asks about no condition; `down` also where it asks about one only. */
  readonly across?: AxisShown;
  readonly down?: AxisShown;
  /** The other conditions; where `fixed` does not say so, they may be anything covered. */
  readonly others: readonly OtherCondition[];
  readonly declined: readonly Declined[];
  /** They fill the grid without overlap. */
  readonly regions: readonly CoverageRegion[];
}

export interface AxisShown extends Named {
  readonly cells: readonly CellShown[];
}

export type CellShown =
  /** One value of an observation; neighbours that are not covered anywhere in the grid share a cell. */
  | { readonly kind: 'values'; readonly values: readonly Named[] }
  | { readonly kind: 'stretch'; readonly low: EndShown; readonly high: EndShown };

export interface EndShown {
  /** As the sheet writes it. */
  readonly text: string;
  readonly included: boolean;
  /** Where the range of the instrument ends. */
  readonly isRangeEnd: boolean;
}

export interface OtherCondition {
  readonly pick: ToPick;
  /** Whether a value is fixed; the value is in `pick`. */
  readonly fixed: boolean;
}

export interface CoverageRegion {
  /** Cells of `across` from `left`, and of `down` from `top`. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly outcome: Outcome;
  /** Where it is, as a test of the language; `always` where it is everywhere covered. */
  readonly circumstance: string;
  /** A situation inside; missing outside of what is covered. */
  readonly situation?: SituationShown;
}

export type Outcome =
  | { readonly kind: 'outside' }
  | {
      readonly kind: 'choice';
      /** Everything that can be chosen there. */
      readonly things: readonly Named[];
      /** Whether some situation there finds nothing to choose. */
      readonly gap: boolean;
    }
  | {
      readonly kind: 'time';
      /** Missing where no way of doing the job comes to the end. */
      readonly total?: Times;
    }
  | { readonly kind: 'findings'; readonly count: number; readonly worst?: Severity };
