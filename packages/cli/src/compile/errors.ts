import { checkSheets, type Finding } from '@quarrel/checks';
import type { Procedure } from '@quarrel/model';
import type { Io } from '../io.js';
import { findingsOfText } from '../report/used.js';
import { counted } from '../report/words.js';
import type { Gathered } from '../sheets/gather.js';
import { readAlone } from '../sheets/read.js';

/**
 * What speaks against working from a procedure: what was found in it, and in the text of its sheet and of every sheet that this
 * one uses, for what could not be read there may be what would have forbidden a step.
 */
export async function findingsAgainst(procedure: Procedure, gathered: Gathered, io: Io): Promise<readonly Finding[]> {
  const { sheets, others } = await readAlone(procedure.uri, gathered, io);
  const own = sheets.map((sheet) => ({
    ...sheet,
    procedures: sheet.procedures.filter(({ name }) => name === procedure.name),
  }));
  return [...checkSheets(own).findings, ...others.flatMap(findingsOfText)];
}

export function notCompiled({ name }: Procedure, errors: number): string {
  return `${name} has ${counted(errors, 'error')} and is not compiled. Mend what is said above, or have it with DRAFT on it: --draft.\n`;
}

/** A line where a procedure is compiled though something is said against it. */
export function withWarnings({ name }: Procedure, warnings: number): string {
  return warnings === 0 ? '' : `${name} has ${counted(warnings, 'warning')}; "quarrel check" says which.\n`;
}
