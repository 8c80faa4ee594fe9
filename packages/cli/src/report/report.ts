import {
  type CheckReport,
  type Finding,
  type ProcedureReport,
  type Silent,
  silencesOf,
  type WaivedFinding,
} from '@quarrel/checks';
import type { ReadResult } from '@quarrel/language';
import type { Procedure } from '@quarrel/model';
import { nameOfSheet } from '../sheets/names.js';
import type { Surroundings } from './text.js';

/** What a check came to, for whoever words it. */
export interface Report {
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly procedures: readonly ProcedureReport[];
  /** How many sheets were asked for. */
  readonly sheets: number;
  /** Why estimates are silent, where that was asked. */
  readonly silences?: readonly SilentIn[];
}

/** Why estimates tell nothing of a procedure. */
export interface SilentIn {
  readonly procedure: Procedure;
  readonly silent: Silent;
}

/** What a check of the sheets asked for found in these sheets. */
export function reportOf(
  { findings, waived, procedures }: CheckReport,
  { sheets }: ReadResult,
  { withSilences }: { readonly withSilences: boolean },
): Report {
  const own = new Set(sheets.map(({ uri }) => uri));
  return {
    findings: findings.filter(({ range }) => own.has(range.uri)),
    waived,
    procedures,
    sheets: sheets.length,
    ...(withSilences ? { silences: procedures.flatMap(({ procedure }) => silentIn(procedure)) } : {}),
  };
}

function silentIn(procedure: Procedure): readonly SilentIn[] {
  return silencesOf(procedure).map((silent) => ({ procedure, silent }));
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
