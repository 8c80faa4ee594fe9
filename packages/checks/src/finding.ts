import type { Scenario, Severity, SourceRange } from '@quarrel/model';

/** One thing wrong with a sheet or a procedure, as data: each surface words and places it in its own way. */
export interface Finding {
  /** The rule's name, in kebab-case. */
  readonly rule: string;
  readonly severity: Severity;
  readonly range: SourceRange;
  /** One line: the fact, in the author's words. */
  readonly message: string;
  /** Why it matters; the reason the rule gives. */
  readonly because?: string;
  /** Where the reason comes from. */
  readonly source?: string;
  /** What to do about it, as an instruction. */
  readonly advice?: string;
  /** The name of the procedure, where one is at fault. */
  readonly procedure?: string;
  /** The id of the step that it stands at, whose waivers cover it. */
  readonly step?: string;
  readonly situation?: Situation;
  /** Other places that belong to it. */
  readonly related?: readonly Related[];
  /** The mechanical mends, each on its own enough, the best first; empty where there is none. */
  readonly mends: readonly Mend[];
}

/** In which situations a finding happens. */
export interface Situation {
  /** A condition that the language reads back; `always` where it is every situation that reaches the place. */
  readonly region: string;
  /** The same, one line for each way it can happen. */
  readonly lines: readonly string[];
  /** A typical situation of them, with a value for every condition. */
  readonly witness: Scenario;
  /** The steps that lead there in that situation, in order, without the step at fault. */
  readonly path: readonly PathStep[];
}

export interface PathStep {
  readonly step: string;
  readonly text: string;
  readonly range: SourceRange;
}

export interface Related {
  readonly message: string;
  readonly range: SourceRange;
}

/** A mechanical mend: what it does, in the words of a menu, and the edits that do it. */
export interface Mend {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** Replaces the text of `range`; an empty range inserts. */
export interface Edit {
  readonly range: SourceRange;
  readonly text: string;
}

/** A finding that the sheet takes on purpose, with the reason on record. */
export interface WaivedFinding {
  readonly finding: Finding;
  readonly because: string;
}
