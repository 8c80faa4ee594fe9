// The server in a web worker, which asks its client for files.
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { startServer } from '../start.js';
import { ClientFiles } from '../workspace/client-files.js';

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));
startServer(connection, () => new ClientFiles(connection));
