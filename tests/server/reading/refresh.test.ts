import { PassThrough } from 'node:stream';
import { EmptyFileSystem } from 'langium';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
  createConnection,
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { methods } from '../../../packages/server/src/protocol.js';
import { startServer } from '../../../packages/server/src/start.js';
import { addressOf } from '../harness.js';

const user = 'use "acts"\nprocedure p { step "x" { do press } }';

let client: ProtocolConnection;
let asked: string[];
let rounds: number;
let version: number;

/** A server in this process, and a client that can be asked to ask again. */
async function start(workspace: object): Promise<void> {
  const [up, down] = [new PassThrough(), new PassThrough()];
  startServer(
    createConnection(new StreamMessageReader(up), new StreamMessageWriter(down)),
    EmptyFileSystem.fileSystemProvider,
  );
  client = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  for (const method of ['workspace/inlayHint/refresh', 'workspace/codeLens/refresh']) {
    client.onRequest(method, () => {
      asked.push(method);
      return null;
    });
  }
  client.onNotification(methods.checked, () => {
    rounds += 1;
  });
  client.listen();
  await client.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    capabilities: { workspace },
    workspaceFolders: null,
  });
  await client.sendNotification('initialized', {});
  await write('acts', 'act press\nact other\n');
  await write('user', user);
  await quiet();
  asked = [];
}

async function write(name: string, text: string): Promise<void> {
  const before = rounds;
  const uri = addressOf(name);
  version += 1;
  const isOpen = opened.has(uri);
  opened.add(uri);
  await client.sendNotification(
    isOpen ? 'textDocument/didChange' : 'textDocument/didOpen',
    isOpen
      ? { textDocument: { uri, version }, contentChanges: [{ text }] }
      : { textDocument: { uri, languageId: 'quarrel', version, text } },
  );
  await until(() => rounds > before);
}

const opened = new Set<string>();

async function until(holds: () => boolean): Promise<void> {
  const end = Date.now() + 20_000;
  while (!holds()) {
    if (Date.now() > end) throw new Error('waited too long');
    await pause(10);
  }
}

/** Longer than the server gathers what it asks for. */
function quiet(): Promise<void> {
  return pause(600);
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

beforeEach(() => {
  opened.clear();
  asked = [];
  rounds = 0;
  version = 0;
});

afterEach(() => client.dispose());

const able = { inlayHint: { refreshSupport: true }, codeLens: { refreshSupport: true } };

describe('a client that can', () => {
  test('is told to ask again when another sheet changes what is known', async () => {
    await start(able);
    await write('acts', 'state s: a, b\nact press { needs s is b as first because "x" }\nact other\n');
    await quiet();
    expect(asked.sort()).toEqual(['workspace/codeLens/refresh', 'workspace/inlayHint/refresh']);
  });

  test('is left alone when nothing that is known changes', async () => {
    await start(able);
    await write('acts', '// a comment\nact press\nact other\n');
    await quiet();
    expect(asked).toEqual([]);
  });

  test('is told to ask again when settings change', async () => {
    await start(able);
    await client.sendNotification('workspace/didChangeConfiguration', { settings: { quarrel: { codeLens: false } } });
    await until(() => asked.length === 2);
    const lenses = await client.sendRequest('textDocument/codeLens', { textDocument: { uri: addressOf('user') } });
    expect(lenses).toEqual([]);
  });
});

test('a client that cannot is not asked', async () => {
  await start({});
  await write('acts', 'state s: a, b\nact press { needs s is b as first because "x" }\nact other\n');
  await quiet();
  expect(asked).toEqual([]);
});
