import type { Problem } from './problem.js';
import type { Procedure } from './procedure.js';
import type { Act, Rule } from './vocabulary.js';

/** One sheet, lowered: what it holds as data, and what is wrong with its text. */
export interface Sheet {
  readonly uri: string;
  readonly procedures: readonly Procedure[];
  /** Its own acts and rules, for the checks that look at declarations. */
  readonly acts: readonly Act[];
  readonly rules: readonly Rule[];
  readonly problems: readonly Problem[];
}
