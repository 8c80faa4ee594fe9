import { isSheetDocument, type SheetDocument, shippedName } from '@quarrel/language';
import { DocumentState, interruptAndCheck, isOperationCancelled, type LangiumDocument, URI } from 'langium';
import type { CancellationToken, Connection } from 'vscode-languageserver';
import { type CheckedParams, type CheckingParams, methods, type Summary } from '../protocol.js';
import type { ServerServices } from '../services.js';
import { diagnosticsOf, faultOfOurs } from './diagnostics.js';

/**
 * Checks what was built, and tells the editor. A sheet that was built anew is checked, and so is a sheet whose declarations
 * it used or uses, as those may have come into use or out of it. What a newer edit interrupts is done with the next build.
 */
export function publishFindings({ shared, quarrel }: ServerServices, connection: Connection): void {
  const { DocumentBuilder, LangiumDocuments, TextDocuments } = shared.workspace;
  const waiting = new Set<string>();
  const told = new Map<string, { readonly key: string; readonly summary: Omit<Summary, 'sheets'> }>();

  const publish = (document: SheetDocument): void => {
    const uri = document.uri.toString();
    const report = quarrel.check.Checks.of(document);
    const diagnostics = [...diagnosticsOf(report, uri)];
    const version = TextDocuments.get(document.uri)?.version;
    const key = `${version} ${JSON.stringify(diagnostics)}`;
    if (told.get(uri)?.key === key) return;
    const count = (severity: string): number => report.findings.filter((one) => one.severity === severity).length;
    const summary = {
      procedures: report.procedures.length,
      errors: count('error'),
      warnings: count('warning'),
      infos: count('info'),
    };
    told.set(uri, { key, summary });
    void connection.sendDiagnostics({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  };

  /** A fault of ours costs the findings of one sheet, and not the server. */
  const publishSafely = (document: SheetDocument): void => {
    try {
      publish(document);
    } catch (error) {
      if (isOperationCancelled(error)) throw error;
      const uri = document.uri.toString();
      connection.console.error(`${uri} could not be checked. ${error instanceof Error ? error.stack : error}`);
      told.set(uri, { key: '', summary: { procedures: 0, errors: 1, warnings: 0, infos: 0 } });
      void connection.sendDiagnostics({ uri, diagnostics: [faultOfOurs] });
    }
  };

  const check = async (documents: readonly LangiumDocument[], token: CancellationToken): Promise<void> => {
    for (const document of documents) for (const uri of concerned(document)) waiting.add(uri);
    const uris = [...waiting].sort((a, b) => Number(isOpen(b)) - Number(isOpen(a)));
    void connection.sendNotification(methods.checking, { uris } satisfies CheckingParams);
    for (const uri of uris) {
      await interruptAndCheck(token);
      const document = LangiumDocuments.getDocument(URI.parse(uri));
      if (document !== undefined && isSheetDocument(document)) publishSafely(document);
      waiting.delete(uri);
    }
    void connection.sendNotification(methods.checked, { uris, summary: summaryOf(told) } satisfies CheckedParams);
  };

  /** A sheet and those that it sees; what ships is never told of. */
  const concerned = (document: LangiumDocument): readonly string[] =>
    isSheetDocument(document)
      ? [document, ...quarrel.names.VisibleNames.sheetsFor(document)]
          .map(({ uri }) => uri.toString())
          .filter((uri) => shippedName(uri) === undefined)
      : [];
  const isOpen = (uri: string): boolean => TextDocuments.get(URI.parse(uri)) !== undefined;

  DocumentBuilder.onBuildPhase(DocumentState.Validated, check);
  DocumentBuilder.onUpdate((_, deleted) => {
    for (const uri of deleted.map(String)) {
      waiting.delete(uri);
      if (told.delete(uri)) void connection.sendDiagnostics({ uri, diagnostics: [] });
    }
  });
}

function summaryOf(told: ReadonlyMap<string, { readonly summary: Omit<Summary, 'sheets'> }>): Summary {
  const all = [...told.values()].map(({ summary }) => summary);
  const sum = (key: keyof Omit<Summary, 'sheets'>): number => all.reduce((total, one) => total + one[key], 0);
  return {
    sheets: all.length,
    procedures: sum('procedures'),
    errors: sum('errors'),
    warnings: sum('warnings'),
    infos: sum('infos'),
  };
}
