// What the scripts share: running tools with the right Node, and doing nothing where nothing changed.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** The tools need a newer Node than the command itself: the one that comes as an npm package goes first. */
function environment() {
  return { ...process.env, PATH: `${join(root, 'node_modules', '.bin')}${delimiter}${process.env.PATH ?? ''}` };
}

/** Runs a command from the root and shows what it prints; ends this script with its exit code if it fails. */
export function run(command, args, options = {}) {
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit', env: environment(), ...options });
  if (error) {
    console.error(`${command} could not be started: ${error.message}`);
    process.exit(2);
  }
  if (status !== 0) process.exit(status ?? 1);
}

/** The same, but gives the exit code back. */
export function tryRun(command, args) {
  return spawnSync(command, args, { cwd: root, stdio: 'inherit', env: environment() }).status ?? 1;
}

/** Does `work` unless the files in `inputs` (files or folders) are as they were when it last succeeded. */
export function unlessUnchanged(name, inputs, outputs, work) {
  const stamp = join(root, 'node_modules', '.cache', 'quarrel', `${name}.stamp`);
  const now = digestOf(inputs);
  const made = outputs.every((output) => existsSync(join(root, output)));
  if (made && existsSync(stamp) && readFileSync(stamp, 'utf8') === now) return false;
  work();
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, digestOf(inputs));
  return true;
}

function digestOf(inputs) {
  const hash = createHash('sha256');
  for (const file of inputs.flatMap((input) => filesUnder(join(root, input)))) {
    hash
      .update(`${relative(root, file)}\0`)
      .update(readFileSync(file))
      .update('\0');
  }
  return hash.digest('hex');
}

function filesUnder(path) {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { withFileTypes: true })
    .filter((entry) => entry.name !== 'node_modules' && entry.name !== 'dist')
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => filesUnder(join(path, entry.name)));
}

/** Installs what the lock file lists, unless it is there already. */
export function install() {
  const manifests = readdirSync(join(root, 'packages')).map((name) => `packages/${name}/package.json`);
  return unlessUnchanged('install', ['package.json', 'package-lock.json', ...manifests], ['node_modules/.bin'], () => {
    console.log('Installing…');
    run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
  });
}
