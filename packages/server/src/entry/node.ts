// The server as a process: over stdio, a socket or its parent's channel, as the arguments say (`--stdio`).
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { startServer } from '../start.js';
import { SheetFiles } from '../workspace/node-files.js';

startServer(createConnection(ProposedFeatures.all), () => new SheetFiles());
