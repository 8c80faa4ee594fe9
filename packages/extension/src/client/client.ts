import { type Disposable, type ExtensionContext, window } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { listenToChecks } from './checks.js';
import { registerCommands } from './commands.js';
import { tellFailure } from './failure.js';
import { answerForFiles } from './files.js';
import { Panels } from './panels.js';
import { clientOptions } from './start.js';
import { showStatus } from './status.js';

/** What differs between hosts. */
export interface Parts {
  /** Whether the server has no files of its own. */
  readonly filesFromClient: boolean;
  createClient(options: LanguageClientOptions): BaseLanguageClient;
}

/** Puts everything up that does not wait for the server, then starts it. */
export async function activateWith(context: ExtensionContext, { filesFromClient, createClient }: Parts): Promise<void> {
  const log = window.createOutputChannel('Quarrel', { log: true });
  const client = createClient(clientOptions(log, filesFromClient));
  const keep = (...parts: readonly Disposable[]): void => void context.subscriptions.push(...parts);
  keep(log, ...(filesFromClient ? answerForFiles(client) : []));
  const checks = listenToChecks(client);
  const status = showStatus(client, checks);
  const panels = new Panels(context, { client, checks, log });
  keep(checks, status, panels, ...registerCommands({ client, log, panels, status }));
  keep({ dispose: () => void client.stop() });
  try {
    await client.start();
  } catch (error) {
    // Not awaited: the message stays until it is read, and the commands are there meanwhile.
    void tellFailure(error, log);
  }
}
