import type { Finding, ProcedureReport } from '@quarrel/checks';
import { parseTest } from '@quarrel/language';
import { coverageOf, holdsOf, type Picked, type Pictured, timelineOf } from '@quarrel/pictures';
import type { CoverageAnswer, CoverageParams, HoldsAnswer, HoldsParams, TimelineAnswer } from '../protocol.js';

/** A procedure with what is found in its sheet. */
export interface Known extends ProcedureReport {
  readonly sheetFindings: readonly Finding[];
}

/** The timeline of a procedure in a situation that was picked. */
export function answerTimeline(known: Known, picked: Picked): TimelineAnswer {
  return timelineOf(pictured(known), picked);
}

/** What comes out of a procedure over two of its conditions. */
export function answerCoverage(known: Known, question: CoverageParams['question']): CoverageAnswer {
  return coverageOf(pictured(known), question);
}

/** Holds beside what resin is estimated to need, over the temperature of the glass. */
export function answerHolds(known: Known, question: HoldsParams['question']): HoldsAnswer {
  return holdsOf(known, question);
}

function pictured({ procedure, interpretation, sheetFindings }: Known): Pictured {
  return {
    procedure,
    interpretation,
    findings: sheetFindings.filter(
      (finding) => finding.procedure === undefined || finding.procedure === procedure.name,
    ),
    read: (text) => parseTest(text, procedure.vocabulary).test,
  };
}
