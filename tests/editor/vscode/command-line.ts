import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { node } from '../setup/code-server.js';
import type { Window } from './window.js';

// What the command says of the same folder: the editor has to say the same.

const quarrel = fileURLToPath(new URL('../../../packages/cli/dist/quarrel.js', import.meta.url));

/** The counts of `quarrel check` over the folder. */
export function commandChecks({ folder }: Window): { errors: number; warnings: number; infos: number } {
  return JSON.parse(run(['check', folder, '--format', 'json'])).summary;
}

/** What `quarrel compile --format json` tells of a checklist for one situation. */
export interface Checklist {
  readonly steps: readonly { readonly id: string; readonly text: string; readonly resin?: unknown }[];
  readonly total: { readonly least: string; readonly most: string };
}

/** The checklist of a procedure of the folder, supposing what is said in the language's words. */
export function commandCompiles({ folder }: Window, procedure: string, suppose: readonly string[]): Checklist {
  const out = mkdtempSync(join(tmpdir(), 'quarrel-checklist-'));
  try {
    const situation = suppose.flatMap((words) => ['--for', words]);
    run(['compile', folder, '--procedure', procedure, ...situation, '--format', 'json', '--out', out]);
    const [file = ''] = readdirSync(out);
    return JSON.parse(readFileSync(join(out, file), 'utf8'));
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}

/** What `quarrel compile` writes for a sheet of the folder, supposing what is said in the language's words. */
export function commandWrites(
  { folder }: Window,
  sheet: string,
  suppose: readonly string[],
  format: 'html' | 'md',
): string {
  return run(['compile', join(folder, sheet), ...suppose.flatMap((words) => ['--for', words]), '--format', format]);
}

function run(args: readonly string[]): string {
  const { stdout, stderr, status } = spawnSync(node, [quarrel, ...args], { encoding: 'utf8' });
  if (status !== 0 && stdout === '') throw new Error(`quarrel ${args.join(' ')} failed: ${stderr}`);
  return stdout;
}
