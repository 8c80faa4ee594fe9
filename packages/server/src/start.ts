import { type DefaultSharedCoreModuleContext, DocumentState } from 'langium';
import { createRequestHandler, startLanguageServer } from 'langium/lsp';
import type { Connection, SelectionRangeParams } from 'vscode-languageserver';
import { publishFindings } from './check/publish.js';
import { refreshWhenKnown } from './features/refresh.js';
import { selectionRanges } from './features/selection-ranges.js';
import { answerRequests } from './requests/requests.js';
import { createServerServices } from './services.js';

/** Starts a server on a connection; `fileSystemProvider` is where it finds sheets that are not open. */
export function startServer(
  connection: Connection,
  fileSystemProvider: DefaultSharedCoreModuleContext['fileSystemProvider'],
): void {
  const services = createServerServices({ connection, fileSystemProvider });
  publishFindings(services, connection);
  refreshWhenKnown(services, connection);
  connection.onSelectionRanges(
    createRequestHandler(
      (_, document, params: SelectionRangeParams) => selectionRanges(document, params),
      services.shared,
      DocumentState.Parsed,
    ),
  );
  answerRequests(services, connection);
  startLanguageServer(services.shared);
}
