import { type Position, type Procedure, type SourceRange, stepsOf } from '@quarrel/model';
import type { Edit, Finding, Mend } from '../finding.js';
import { addLast, addToProcedure } from './clauses.js';

/** A mend that puts a waiver in a sheet. It does not count until its reason, which is empty, is written. */
export interface Waiving extends Mend {
  /** Between the quotation marks of the reason, in the sheet as it is with the waiver. */
  readonly reason: SourceRange;
}

/** What no waiver helps against: what is said of waivers themselves, and what keeps a procedure from being checked. */
const unwaivable: ReadonlySet<string> = new Set(['stale-waiver', 'reason-missing', 'too-tangled']);

/**
 * How a finding can be taken on purpose: by its step, then by its whole procedure. None for what is wrong with the text of a
 * sheet or with what it declares, and where the sheet does not say where a waiver could stand. `procedure` is the one that
 * the finding is of.
 */
export function waiversFor(finding: Finding, procedure: Procedure): readonly Waiving[] {
  if (finding.procedure !== procedure.name || unwaivable.has(finding.rule)) return [];
  const opening = `waive ${finding.rule} because "`;
  const step = stepsOf(procedure).find(({ id }) => id === finding.step);
  const inStep = step === undefined ? undefined : addLast(step, `${opening}"`);
  return [
    ...waiving(`Waive ${finding.rule} in this step`, inStep, opening),
    ...waiving(`Waive ${finding.rule} in the whole procedure`, addToProcedure(procedure, `${opening}"`), opening),
  ];
}

function waiving(title: string, edit: Edit | undefined, opening: string): readonly Waiving[] {
  if (edit === undefined) return [];
  const { uri, start } = edit.range;
  const end = placeBehind(start, edit.text.slice(0, edit.text.indexOf(opening) + opening.length));
  return [{ title, edits: [edit], reason: { uri, start: end, end } }];
}

/** Where a text ends that is put in at `start`. */
function placeBehind({ line, column }: Position, text: string): Position {
  const lines = text.split('\n');
  const last = lines.at(-1) ?? '';
  return { line: line + lines.length - 1, column: lines.length === 1 ? column + last.length : last.length };
}
