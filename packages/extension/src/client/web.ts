// The extension in a browser: the server is a worker, and asks the client for files.
import { type ExtensionContext, Uri, workspace } from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { activateWith } from './client.js';

/** Browsers have it; the types of browsers are not among ours. */
declare const Worker: new (address: string) => ServerWorker;
type ServerWorker = ConstructorParameters<typeof BrowserMessageReader>[0] & { terminate(): void };

export async function activate(context: ExtensionContext): Promise<void> {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'server.web.js');
  let worker: ServerWorker | undefined;
  const end = (): void => worker?.terminate();
  context.subscriptions.push({ dispose: end });
  /** Called again for each restart. */
  const start = async (): Promise<{ reader: BrowserMessageReader; writer: BrowserMessageWriter }> => {
    end();
    worker = await workerOf(script);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  await activateWith(context, {
    filesFromClient: true,
    createClient: (options) => new LanguageClient('quarrel', 'Quarrel', start, options),
  });
}

/** A browser fetches the script itself, unless the extension is installed on the machine behind a remote window. */
async function workerOf(script: Uri): Promise<ServerWorker> {
  if (script.scheme !== 'vscode-remote') return new Worker(script.toString(true));
  const text = new TextDecoder().decode(await workspace.fs.readFile(script));
  return new Worker(URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
}
