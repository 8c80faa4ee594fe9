import type { DefaultSharedCoreModuleContext } from 'langium';
import { startLanguageServer } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import { publishFindings } from './check/publish.js';
import { createServerServices } from './services.js';

/** Starts a server on a connection; `fileSystemProvider` is where it finds sheets that are not open. */
export function startServer(
  connection: Connection,
  fileSystemProvider: DefaultSharedCoreModuleContext['fileSystemProvider'],
): void {
  const services = createServerServices({ connection, fileSystemProvider });
  publishFindings(services, connection);
  startLanguageServer(services.shared);
}
