import type { CheckReport, Finding, ProcedureReport, WaivedFinding } from '@quarrel/checks';
import type { ReadResult } from '@quarrel/language';
import { nameOfSheet } from '../sheets/names.js';
import type { Surroundings } from './text.js';

/** What a check came to, for whoever words it. */
export interface Report {
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly procedures: readonly ProcedureReport[];
  /** How many sheets were asked for. */
  readonly sheets: number;
}

/** What a check of the sheets asked for found in these sheets. */
export function reportOf({ findings, waived, procedures }: CheckReport, { sheets }: ReadResult): Report {
  const own = new Set(sheets.map(({ uri }) => uri));
  return { findings: findings.filter(({ range }) => own.has(range.uri)), waived, procedures, sheets: sheets.length };
}

/** What findings on sheets that were read are shown with. */
export function surroundingsOf({ sheets, texts }: ReadResult, cwd: string, colours: boolean): Surroundings {
  return {
    nameOf: (uri) => nameOfSheet(uri, cwd),
    textOf: (uri) => texts.get(uri),
    procedures: sheets.flatMap(({ procedures }) => procedures),
    colours,
  };
}
