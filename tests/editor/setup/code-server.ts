import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The editor the tests run in: VS Code served to a browser, from npm. */
const version = '4.139.1';

/** What the names of folders hold in which the editor is being set up. */
const unfinished = '-making-';

/** The Node that npm brought: the editor needs this major version, whatever runs the tests. */
export const node = fileURLToPath(new URL('../../../node_modules/node/bin/node', import.meta.url));

/** The modules of the editor that have to be compiled here; everything else comes ready. */
const compiled = {
  '@vscode/spdlog': 'build/Release/spdlog.node',
  '@vscode/native-watchdog': 'build/Release/watchdog.node',
} as const;

/**
 * The script that starts the editor. Sets the editor up in a cache folder where it is not there yet: about half a minute, with
 * the npm registry within reach, a C++ compiler and Python. Throws with what went wrong where that fails.
 */
export function codeServer(): string {
  const cache = join(process.env.QUARREL_CACHE ?? process.env.XDG_CACHE_HOME ?? join(homedir(), '.cache'), 'quarrel');
  const home = join(cache, `code-server-${version}`);
  if (!existsSync(home)) {
    mkdirSync(cache, { recursive: true });
    removeLeftovers(cache);
    const making = mkdtempSync(`${home}${unfinished}`);
    try {
      make(making);
      moveIntoPlace(making, home);
    } finally {
      rmSync(making, { recursive: true, force: true });
    }
  }
  return join(home, 'node_modules', 'code-server', 'out', 'node', 'entry.js');
}

/** A set-up that was killed leaves its folder; one that is an hour old is nobody's work any more. */
function removeLeftovers(cache: string): void {
  const anHourAgo = Date.now() - 3_600_000;
  for (const name of readdirSync(cache).filter((one) => one.includes(unfinished))) {
    const folder = join(cache, name);
    if (statSync(folder).mtimeMs < anHourAgo) rmSync(folder, { recursive: true, force: true });
  }
}

function make(folder: string): void {
  console.log(`Setting up code-server ${version} for the editor tests…`);
  writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
  const install = ['install', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  npm(folder, [...install, `code-server@${version}`]);
  const vscode = join(folder, 'node_modules', 'code-server', 'lib', 'vscode');
  npm(vscode, [...install, '--omit=dev']);
  npm(join(vscode, 'extensions'), [...install, '--omit=dev']);
  npm(vscode, ['rebuild', '--loglevel=error', ...Object.keys(compiled)]);
  for (const [name, file] of Object.entries(compiled)) {
    if (!existsSync(join(vscode, 'node_modules', name, file))) throw cannot(`npm rebuild left no ${name}/${file}`);
  }
}

/** Another process may have been faster: its set-up is as good as ours. */
function moveIntoPlace(making: string, home: string): void {
  try {
    renameSync(making, home);
  } catch (error) {
    if (!existsSync(home)) throw error;
  }
}

/** Runs npm on the Node that will start the editor: it is compiled for that one. */
function npm(folder: string, args: readonly string[]): void {
  const { status, stdout, stderr, error } = spawnSync('npm', [...args, '--prefix', folder], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, PATH: `${dirname(node)}${delimiter}${process.env.PATH ?? ''}` },
  });
  if (error || status !== 0) {
    throw cannot(`npm ${args.join(' ')} failed in ${folder}:\n${error?.message ?? `${stdout}\n${stderr}`}`);
  }
}

function cannot(why: string): Error {
  return new Error(
    `The editor for the editor tests could not be set up. It needs the npm registry, a C++ compiler and Python. ${why}`,
  );
}
