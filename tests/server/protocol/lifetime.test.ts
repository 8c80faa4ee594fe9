import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { expect, test } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node';
import { Client, serve } from './client.js';

async function greeted(options: ConstructorParameters<typeof Client>[0] & { readonly processId?: number } = {}) {
  const client = new Client(options);
  await client.initialize(options);
  return { client, closed: once(client.process, 'close') };
}

/** A process that does nothing until it is ended. */
function idler() {
  const child = spawn(process.execPath, ['-e', 'setInterval(() => undefined, 1000)'], { stdio: 'ignore' });
  return { pid: child.pid ?? 0, end: () => child.kill('SIGKILL') };
}

test('it ends well when it is told to stop and then to go', async () => {
  const { client } = await greeted();
  expect(await client.end()).toBe(0);
});

test('told to go without being told to stop, it goes with 1', async () => {
  const { client, closed } = await greeted();
  client.notify('exit', {});
  expect(await closed).toEqual([1, null]);
});

test('it goes when the editor closes its end', async () => {
  const { client, closed } = await greeted();
  client.process.stdin.end();
  expect(await closed).toEqual([1, null]);
});

test('it goes when nobody reads what it says any more', async () => {
  const { client, closed } = await greeted();
  client.process.stdout.destroy();
  client.process.stdin.destroy();
  const [, signal] = await closed;
  expect(signal).toBeNull();
  expect(client.errors).toBe('');
});

test.each(['the process that `initialize` names', '--clientProcessId'])('it goes when %s is gone', async (how) => {
  const editor = idler();
  const { closed } = await greeted(
    how === '--clientProcessId' ? { argv: [...serve, `--clientProcessId=${editor.pid}`] } : { processId: editor.pid },
  );
  editor.end();
  expect(await closed).toEqual([1, null]);
});

test('nothing but the protocol goes to its output, and nothing to its errors', async () => {
  const [node = '', ...rest] = serve;
  const child = spawn(node, rest, { stdio: 'pipe' });
  const output: Buffer[] = [];
  const errors: Buffer[] = [];
  child.stdout.on('data', (part: Buffer) => output.push(part));
  child.stderr.on('data', (part: Buffer) => errors.push(part));
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  connection.listen();
  await connection.sendRequest('initialize', { processId: null, rootUri: null, capabilities: {} });
  await connection.sendNotification('initialized', {});
  const textDocument = { uri: 'untitled:x', languageId: 'quarrel', version: 1, text: 'procedure p { step "Wait" }' };
  await connection.sendNotification('textDocument/didOpen', { textDocument });
  await connection.sendRequest('no/such/question', {}).catch(() => undefined);
  await connection.sendRequest('textDocument/hover', { textDocument, position: { line: 7, character: 7 } });
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await once(child, 'close');
  expect(Buffer.concat(errors).toString()).toBe('');
  expect(messagesOf(Buffer.concat(output)).length).toBeGreaterThan(4);
});

/** The messages that a stream consists of; fails on a byte that belongs to none. */
function messagesOf(bytes: Buffer): readonly unknown[] {
  const messages: unknown[] = [];
  for (let rest = bytes; rest.length > 0; ) {
    const head = /^Content-Length: (\d+)\r\n\r\n/.exec(rest.subarray(0, 50).toString('latin1'));
    expect(head).not.toBeNull();
    const start = head?.[0].length ?? 0;
    const end = start + Number(head?.[1]);
    messages.push(JSON.parse(rest.subarray(start, end).toString()));
    rest = rest.subarray(end);
  }
  return messages;
}
