import { spawn, spawnSync } from 'node:child_process';
import { createWriteStream, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { codeServer, node } from './code-server.js';

/** A running editor. */
export interface Editor {
  /** Where a browser finds it. */
  readonly address: string;
  /** Its user's settings: written before a window opens. */
  readonly settingsFile: string;
  /** The folder with what the editor, its extension hosts and the extensions wrote down. */
  readonly logs: string;
}

/** How long the server may take to answer for the first time, in milliseconds. */
const patience = 60_000;

/** Starts the editor with the extension in `vsix`; gives it and a function that ends it. Logs go to a folder that is there. */
export async function serve(vsix: string, logs: string): Promise<{ editor: Editor; stop: () => Promise<void> }> {
  const script = codeServer();
  const home = mkdtempSync(join(tmpdir(), 'quarrel-editor-'));
  const user = join(home, 'user', 'User');
  mkdirSync(user, { recursive: true });
  const env = {
    ...withoutEditor(process.env),
    XDG_CONFIG_HOME: join(home, 'config'),
    XDG_DATA_HOME: join(home, 'data'),
    LANG: 'en_US.UTF-8',
    EXTENSIONS_GALLERY: '{"serviceUrl":""}',
  };
  // The editor writes its logs below its user's data.
  symlinkSync(logs, join(home, 'user', 'logs'), 'dir');
  const folders = ['--user-data-dir', join(home, 'user'), '--extensions-dir', join(home, 'extensions')];
  installExtension([script, ...folders], vsix, env);

  const port = await freePort();
  const quiet = ['--disable-telemetry', '--disable-update-check', '--disable-getting-started-override'];
  const address = `http://127.0.0.1:${port}`;
  const server = spawn(node, [script, ...folders, ...quiet, '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`], {
    env,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const logFile = join(logs, 'server.log');
  const log = createWriteStream(logFile);
  server.stdout.pipe(log);
  server.stderr.pipe(log);
  const stop = async () => {
    const ended = new Promise((resolve) => server.once('exit', resolve));
    if (server.exitCode === null && server.kill()) await ended;
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    await answers(address, () => server.exitCode !== null);
  } catch (error) {
    await stop();
    throw new Error(`code-server did not start: ${String(error)}\n${readFileSync(logFile, 'utf8')}`);
  }
  return { editor: { address, settingsFile: join(user, 'settings.json'), logs }, stop };
}

function installExtension(script: readonly string[], vsix: string, env: NodeJS.ProcessEnv): void {
  const { status, stdout, stderr } = spawnSync(node, [...script, '--install-extension', vsix], {
    env,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${vsix} could not be installed:\n${stdout}\n${stderr}`);
}

/** A terminal inside VS Code tells commands about its own window: ours is not to open there. */
function withoutEditor(env: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  return Object.fromEntries(
    Object.entries(env).filter(([name]) => !/^VSCODE_|^CODE_SERVER|^PORT$|^PASSWORD$/.test(name)),
  );
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() =>
        address && typeof address === 'object' ? resolve(address.port) : reject(new Error('no port')),
      );
    });
  });
}

async function answers(address: string, ended: () => boolean): Promise<void> {
  const until = Date.now() + patience;
  while (Date.now() < until) {
    if (ended()) throw new Error('it ended at once');
    try {
      if ((await fetch(`${address}/healthz`)).ok) return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  throw new Error(`it did not answer within ${patience / 1000} s`);
}
