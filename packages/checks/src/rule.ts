import type { Region, Run } from '@quarrel/analysis';
import type { Problem, Procedure, Rule, Severity, Sheet, SourceRange, Step, Test } from '@quarrel/model';
import type { Asked } from './asked.js';
import type { Mend, Related } from './finding.js';
import type { Layout } from './layout.js';

/**
 * Where a rule gets what it decides on: the text of a sheet, the flow of a procedure, what the sheets declare, or the physics
 * of the process.
 */
export type Family = 'text' | 'flow' | 'sheets' | 'process';

/** What everyone may know of a rule. */
export interface RuleCard {
  /** The name: of the file, of the finding, of what is waived, and of the page under `docs/rules/`. */
  readonly name: string;
  readonly family: Family;
  readonly severity: Severity;
  /** What it finds, in one line. */
  readonly title: string;
}

/** Words one kind of problem that was found on the way from text to model. */
export interface TextRule<Name extends Problem['rule']> extends RuleCard {
  readonly name: Name;
  word(problem: Extract<Problem, { readonly rule: Name }>): Draft;
}

/** Decides on a sheet as it is written, without a run. */
export interface SheetRule extends RuleCard {
  look(sheet: Sheet): Iterable<Draft>;
}

/** Decides on the run of a procedure. */
export interface FlowRule extends RuleCard {
  run(work: Work): Iterable<Draft>;
}

/** A procedure that has not been run. */
export type Unrun = Pick<Work, 'procedure' | 'steps'>;

/** Estimates what the process does, from datasheets and assumptions. It is silent where one of them is missing. */
export interface ProcessRule extends FlowRule {
  /** The tests at which its estimates turn: the run tells situations apart there. */
  turns(unrun: Unrun): Iterable<Test>;
  /** What keeps it silent. */
  silences(unrun: Unrun): Iterable<Silence>;
}

/** Why a rule has nothing to tell of a procedure. */
export interface Silence {
  /** What is missing. */
  readonly message: string;
  /** The line that would wake the rule, as it is written. */
  readonly wakes: string;
  /** Where the line belongs, where there is a place for it. */
  readonly range?: SourceRange;
}

/** Decides on one kind of `rule` that sheets declare. */
export interface DeclaredRule {
  readonly pattern: Rule['pattern']['kind'];
  run(rule: Rule, work: Work): Iterable<Draft>;
}

/** A procedure with what it means. */
export interface Work {
  readonly procedure: Procedure;
  readonly run: Run;
  /** The steps as the run numbers them. */
  readonly steps: readonly Step[];
  readonly layout: Layout;
  readonly asked: Asked;
}

/** A procedure with its run, whatever the rules asked of it. */
export type Ran = Omit<Work, 'asked'>;

/** What a rule has to say; the runner adds the name, the severity, the procedure and the situation in words. */
export interface Draft {
  readonly range: SourceRange;
  readonly message: string;
  readonly because?: string | undefined;
  readonly source?: string | undefined;
  readonly advice?: string | undefined;
  readonly related?: readonly Related[] | undefined;
  /** Worked out when somebody wants to mend it. */
  readonly mends?: (() => readonly Mend[]) | undefined;
  /** The name of what the sheet declares, where the rule speaks for it. */
  readonly rule?: string | undefined;
  /** Where it is not the rule's own. */
  readonly severity?: Severity | undefined;
  /** The procedure at fault, where the runner does not know it. */
  readonly procedure?: Procedure | undefined;
  /** The number of the step it stands at: that step's waivers cover it. */
  readonly step?: number | undefined;
  readonly where?: Where | undefined;
}

/** The situations of a finding. */
export interface Where {
  readonly region: Region;
  /** Everything that reaches the place; the region is worded within it. */
  readonly reached: Region;
  /** Steps with lower numbers can lie on the way there. */
  readonly before: number;
}
