// The extension on a desktop or a remote machine: the server is a process of its own.
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateWith, type Parts } from './client.js';
import { offerTasks } from './tasks.js';

export async function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/server.cjs');
  const server = { module, transport: TransportKind.ipc };
  const parts: Parts = {
    filesFromClient: false,
    createClient: (options) => new LanguageClient('quarrel', 'Quarrel', server, options),
  };
  offerTasks(context);
  await activateWith(context, parts);
}
