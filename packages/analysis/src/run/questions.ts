import type { Test } from '@quarrel/model';

/** What is to be known of a procedure beyond its own flow; the run follows these and nothing else. */
export interface Questions {
  /** Acts of which it matters whether they have been done. */
  readonly acts: readonly string[];
  /** Answers that are owed once something has been done. */
  readonly responses: readonly ResponseQuestion[];
  /** Tests on states (and conditions) to hold at the end. */
  readonly finals: readonly Test[];
  /** Tests on conditions that will be asked of the situations of the run. */
  readonly tests: readonly Test[];
}

export interface ResponseQuestion {
  readonly trigger: string;
  readonly response: string;
  /** The most seconds from the start of the one step to the start of the other. */
  readonly within?: number;
  /** Where the answer is owed; everywhere if missing. Asked when the trigger is done. */
  readonly when?: Test;
}
