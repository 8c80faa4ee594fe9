import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type CheckedParams, methods } from '@quarrel/server/protocol';
import {
  type ClientCapabilities,
  type ConfigurationParams,
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
  type TextDocumentContentChangeEvent,
} from 'vscode-languageserver-protocol/node';

/** The command as it is shipped. */
export const command = fileURLToPath(new URL('../../../packages/cli/bin/quarrel.js', import.meta.url));

/** How an editor starts the server. */
export const serve: readonly string[] = [process.execPath, command, 'serve', '--stdio'];

/** Longer than anything here takes on a busy machine. */
const patience = 60_000;

export interface StartOptions {
  /** The open folders, as paths; none where it is missing. */
  readonly folders?: readonly string[];
  readonly capabilities?: ClientCapabilities;
  /** The server's command line; that of the built server where it is missing. */
  readonly argv?: readonly string[];
  readonly settings?: Readonly<Record<string, unknown>>;
  /** The process that the server is told to watch. */
  readonly processId?: number;
}

/** An editor as far as a server can tell: sends what one sends, and keeps what it is told. */
export class Client {
  readonly process: ChildProcessWithoutNullStreams;
  readonly connection: ProtocolConnection;
  /** Everything that was told of sheets, in order. */
  readonly published: PublishDiagnosticsParams[] = [];
  /** What the server is answered when it asks for settings, by section. */
  readonly settings: Readonly<Record<string, unknown>>;
  /** What the server said on standard error. */
  errors = '';
  readonly #latest = new Map<string, PublishDiagnosticsParams>();
  readonly #times = new Map<string, number>();
  readonly #open = new Map<string, { version: number; text: string }>();
  readonly #waiting = new Set<() => void>();
  #rounds = 0;
  #isChecked = false;
  #checked: CheckedParams | undefined;

  constructor({ argv = serve, settings = {} }: Pick<StartOptions, 'argv' | 'settings'> = {}) {
    const [program = '', ...rest] = argv;
    this.settings = settings;
    this.process = spawn(program, rest, { stdio: 'pipe' });
    this.process.stderr.on('data', (text) => {
      this.errors += text;
      this.#wake();
    });
    this.connection = createProtocolConnection(
      new StreamMessageReader(this.process.stdout),
      new StreamMessageWriter(this.process.stdin),
    );
    this.connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      this.#latest.set(params.uri, params);
      this.#times.set(params.uri, this.timesTold(params.uri) + 1);
      this.#isChecked = false;
      this.#wake();
    });
    this.connection.onNotification(methods.checked, (params: CheckedParams) => {
      this.#rounds += 1;
      this.#isChecked = true;
      this.#checked = params;
      this.#wake();
    });
    this.connection.onRequest('client/registerCapability', () => null);
    this.connection.onRequest('workspace/configuration', ({ items }: ConfigurationParams) =>
      items.map(({ section = '' }) => this.settings[section] ?? null),
    );
    this.connection.listen();
  }

  /** Says hello; gives what the server can do. */
  async initialize({ folders = [], capabilities = {}, processId }: StartOptions = {}): Promise<InitializeResult> {
    const result = await this.connection.sendRequest<InitializeResult>('initialize', {
      processId: processId ?? process.pid,
      rootUri: null,
      capabilities,
      workspaceFolders: folders.map((path) => ({ uri: pathToFileURL(path).href, name: path })),
    });
    await this.connection.sendNotification('initialized', {});
    return result;
  }

  open(uri: string, text: string, version = 1): void {
    this.#open.set(uri, { version, text });
    this.notify('textDocument/didOpen', { textDocument: { uri, languageId: languageOf(uri), version, text } });
  }

  /** Tells of edits, which lead to `text`; they have to be as the protocol writes them, one after another. */
  edit(uri: string, contentChanges: readonly TextDocumentContentChangeEvent[], text: string): void {
    const version = (this.#open.get(uri)?.version ?? 0) + 1;
    this.#open.set(uri, { version, text });
    this.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  }

  /** Tells of a text that is new as a whole. */
  write(uri: string, text: string): void {
    this.edit(uri, [{ text }], text);
  }

  close(uri: string): void {
    this.#open.delete(uri);
    this.notify('textDocument/didClose', { textDocument: { uri } });
  }

  /** Tells of files that came (1), changed (2) or went (3). */
  watched(...changes: readonly { readonly uri: string; readonly type: 1 | 2 | 3 }[]): void {
    this.notify('workspace/didChangeWatchedFiles', { changes });
  }

  notify(method: string, params: object): void {
    void this.connection.sendNotification(method, params);
  }

  request<Answer>(method: string, params: object): Promise<Answer> {
    return this.connection.sendRequest<Answer>(method, params);
  }

  /** What was last told of a sheet. */
  told(uri: string): readonly Diagnostic[] {
    return this.#latest.get(uri)?.diagnostics ?? [];
  }

  textOf(uri: string): string {
    return this.#open.get(uri)?.text ?? '';
  }

  versionOf(uri: string): number | undefined {
    return this.#open.get(uri)?.version;
  }

  /** How often anything was told of a sheet. */
  timesTold(uri: string): number {
    return this.#times.get(uri) ?? 0;
  }

  /** The counts that came with the last check. */
  get summary(): CheckedParams['summary'] | undefined {
    return this.#checked?.summary;
  }

  /** Waits until what was told is of the newest text of every open sheet, and the check that told it is at its end. */
  settled(): Promise<void> {
    return this.until(
      () =>
        this.#isChecked && [...this.#open].every(([uri, { version }]) => this.#latest.get(uri)?.version === version),
      'findings of the newest texts',
    );
  }

  /** Does something that leads to a check, and waits for that to be at its end. */
  async checkedAfter(work: () => void): Promise<void> {
    const before = this.#rounds;
    work();
    await this.until(() => this.#rounds > before && this.#isChecked, 'the end of a check');
  }

  /** Waits until something holds; looks whenever the server has told something. */
  until(holds: () => boolean, what: string): Promise<void> {
    return new Promise((resolve, reject) => {
      const look = (): void => {
        if (!holds()) return;
        clearTimeout(timer);
        this.#waiting.delete(look);
        resolve();
      };
      const timer = setTimeout(() => {
        this.#waiting.delete(look);
        reject(new Error(`The server did not come to ${what}. It said: ${this.errors}`));
      }, patience);
      this.#waiting.add(look);
      look();
    });
  }

  /** Says goodbye as the protocol asks; gives the exit code. */
  async end(): Promise<number | null> {
    const closed = once(this.process, 'close');
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const [code] = await closed;
    this.connection.dispose();
    return code;
  }

  #wake(): void {
    for (const look of [...this.#waiting]) look();
  }
}

/** The language of a sheet, by the ending of its address; of one without, ours. */
function languageOf(uri: string): string {
  return uri.endsWith('.yaml') ? 'yaml' : 'quarrel';
}

/** A client of a server that has been greeted. */
export async function started(options: StartOptions = {}): Promise<Client> {
  const client = new Client(options);
  await client.initialize(options);
  return client;
}
