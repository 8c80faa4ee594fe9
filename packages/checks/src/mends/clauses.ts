import type { Procedure, Step } from '@quarrel/model';
import type { Edit } from '../finding.js';
import { insertAfter, insertAt, insertBefore, newLine } from './text.js';

/** Adds a clause to a step, before all its others. */
export function addFirst(step: Step, clause: string): Edit | undefined {
  const { whole, clauses } = step;
  if (whole === undefined || clauses === undefined) return undefined;
  const isFolded = clauses.start.line !== clauses.end.line;
  return insertBefore(clauses, isFolded ? `${newLine(whole.start.column + 2)}${clause}` : ` ${clause};`);
}

/** Adds a clause to a step, behind all its others; a step without braces gets them. */
export function addLast(step: Step, clause: string): Edit | undefined {
  const { whole, clauses, closing } = step;
  if (whole === undefined) return undefined;
  if (clauses === undefined || closing === undefined) return insertAfter(whole, ` { ${clause} }`);
  if (closing.start.line !== closing.end.line) {
    return insertAt(closing, closing.start, `${newLine(whole.start.column + 2)}${clause}`);
  }
  const isEmpty = clauses.start.line === closing.start.line && clauses.start.column === closing.start.column;
  return insertAt(closing, closing.start, isEmpty ? ` ${clause} ` : `; ${clause}`);
}

/** Adds a line of what is said of a procedure as a whole: behind what it covers, or before all else. */
export function addToProcedure({ clauses, closing, coversClosing }: Procedure, clause: string): Edit | undefined {
  if (clauses === undefined || closing === undefined) return undefined;
  const isFolded = clauses.start.line !== clauses.end.line;
  if (!isFolded) return insertBefore(clauses, ` ${clause};`);
  const line = `${newLine(closing.end.column + 1)}${clause}`;
  return coversClosing === undefined ? insertBefore(clauses, line) : insertAfter(coversClosing, line);
}
