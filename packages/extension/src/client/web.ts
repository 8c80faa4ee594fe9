// The extension in a browser: the server is a worker, and asks the client for files.
import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, type ServerOptions } from 'vscode-languageclient/browser';
import { activateWith } from './client.js';

/** Browsers have it; the types of browsers are not among ours. */
declare const Worker: new (address: string) => Extract<ServerOptions, object>;

export async function activate(context: ExtensionContext): Promise<void> {
  const address = Uri.joinPath(context.extensionUri, 'dist', 'server.web.js').toString(true);
  await activateWith(context, {
    filesFromClient: true,
    createClient: (options) => new LanguageClient('quarrel', 'Quarrel', async () => new Worker(address), options),
  });
}
