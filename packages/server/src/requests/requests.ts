import { isSheetDocument } from '@quarrel/language';
import { DocumentState, URI } from 'langium';
import type { CancellationToken, Connection } from 'vscode-languageserver';
import {
  type ChecklistAnswer,
  type ChecklistParams,
  type CoverageAnswer,
  type CoverageParams,
  type HoldsAnswer,
  type HoldsParams,
  methods,
  type Nothing,
  type ProcedureAddress,
  type TimelineAnswer,
  type TimelineParams,
} from '../protocol.js';
import type { ServerServices } from '../services.js';
import { answerChecklist } from './checklist.js';
import { answerCoverage, answerHolds, answerTimeline, type Known } from './pictures.js';

type Answer = TimelineAnswer | CoverageAnswer | HoldsAnswer | ChecklistAnswer;

/** Answers the requests of our own: pictures and checklists of a procedure as the sheets stand now. */
export function answerRequests(services: ServerServices, connection: Connection): void {
  const on = <Params extends ProcedureAddress>(
    method: string,
    answer: (known: Known, params: Params) => Answer,
  ): void => {
    connection.onRequest<Answer, void>(method, async (params: Params, token: CancellationToken): Promise<Answer> => {
      const known = await knownAt(params, services, token);
      return 'kind' in known ? known : answer(known, params);
    });
  };
  on(methods.timeline, (known, { picked }: TimelineParams) => answerTimeline(known, picked));
  on(methods.coverage, (known, { question }: CoverageParams) => answerCoverage(known, question));
  on(methods.holds, (known, { question }: HoldsParams) => answerHolds(known, question));
  on(methods.checklist, (known, params: ChecklistParams) => answerChecklist(known, params));
}

/** What is known of a procedure, as soon as its sheet has been read as it stands. */
async function knownAt(
  { uri, procedure, line }: ProcedureAddress,
  { shared, quarrel }: ServerServices,
  token: CancellationToken,
): Promise<Known | Nothing> {
  const { DocumentBuilder, LangiumDocuments } = shared.workspace;
  const address = URI.parse(uri);
  if (!LangiumDocuments.hasDocument(address)) return nothing('This sheet is not known.');
  await DocumentBuilder.waitUntil(DocumentState.IndexedReferences, address, token);
  const document = LangiumDocuments.getDocument(address);
  if (document === undefined || !isSheetDocument(document)) return nothing('This sheet is not known.');
  const { Checks } = quarrel.check;
  const name = procedure ?? Checks.procedureAt(document, line ?? 0)?.name;
  if (name === undefined) return nothing('There is no procedure in this sheet.');
  const report = Checks.ofProcedure(document, name);
  if (report === undefined) return nothing(`There is no procedure "${name}" in this sheet any more.`);
  return { ...report, sheetFindings: Checks.of(document).findings };
}

function nothing(reason: string): Nothing {
  return { kind: 'nothing', reason };
}
