import { checkSheets, type Finding } from '@quarrel/checks';
import type { ReadResult } from '@quarrel/language';
import type { Sheet } from '@quarrel/model';
import type { Surroundings } from './text.js';
import { countOf } from './whole.js';
import { counted } from './words.js';

/** What is wrong with what a sheet declares, whatever its procedures do. */
export function findingsOfText(sheet: Sheet): readonly Finding[] {
  return checkSheets([{ ...sheet, procedures: [] }]).findings;
}

/** A line for each sheet that was used, was not asked for, and has errors: what uses it may be checked against too little. */
export function usedWithErrors({ others }: ReadResult, { nameOf }: Surroundings): string {
  return others
    .map((sheet) => {
      const errors = countOf(findingsOfText(sheet), 'error');
      if (errors === 0) return '';
      return `${nameOf(sheet.uri)} is used and has ${counted(errors, 'error')} itself; check it too.\n`;
    })
    .join('');
}
