import { dirname, join, resolve } from 'node:path';
import type { Files } from '../files/files.js';
import { type Io, type Refusal, refusal } from '../io.js';
import { nameOfPath } from './names.js';
import { readText } from './text.js';

/** A sheet that was asked for, by its absolute path. */
export interface GatheredSheet {
  readonly path: string;
  /** The path without links. */
  readonly real: string;
  readonly text: string;
}

export interface Gathered {
  readonly kind: 'gathered';
  /** In the order of the paths given; within a folder by path. None twice. */
  readonly sheets: readonly GatheredSheet[];
  /** The folder outside of which `use` may not lead, absolute. */
  readonly workspace: string;
}

export const suffix = '.quarrel';

/** Reads every sheet at `paths`: files as they are named, folders with all folders in them. */
export function gatherSheets(paths: readonly string[], io: Io): Gathered | Refusal {
  const found = new Map<string, GatheredSheet>();
  const folders: string[] = [];
  for (const given of paths) {
    const path = resolve(io.cwd, given);
    const name = nameOfPath(path, io.cwd);
    const there = io.files.look(path);
    switch (there.kind) {
      case 'missing':
        return refusal(
          `There is no file or folder ${name}.`,
          'Give the path of a .quarrel sheet, or of a folder with sheets.',
        );
      case 'failed':
        return refusal(`${name} cannot be read: ${there.reason}.`);
      case 'neither':
        return refusal(`${name} is neither a file nor a folder.`);
      case 'file': {
        if (!path.endsWith(suffix)) return refusal(`${name} is not a sheet: the names of sheets end in ${suffix}.`);
        const refused = take(path, found, io);
        if (refused !== undefined) return refused;
        folders.push(dirname(path));
        break;
      }
      case 'folder': {
        const walked = sheetsUnder(path, io);
        if (walked.kind === 'refusal') return walked;
        if (walked.paths.length === 0) {
          return refusal(
            `There is no sheet in ${name}.`,
            `Sheets end in ${suffix}; "quarrel new ${name}" writes a first one.`,
          );
        }
        for (const sheet of walked.paths) {
          const refused = take(sheet, found, io);
          if (refused !== undefined) return refused;
        }
        folders.push(path);
        break;
      }
    }
  }
  return { kind: 'gathered', sheets: [...found.values()], workspace: workspaceOf(folders, io) };
}

/** Reads one sheet into `found`, unless it is there already under this or another name. */
function take(path: string, found: Map<string, GatheredSheet>, io: Io): Refusal | undefined {
  const there = io.files.look(path);
  const real = there.kind === 'file' ? there.real : path;
  if (found.has(real)) return undefined;
  const read = readText(path, io.files);
  if (read.kind === 'unreadable') return refusal(`${nameOfPath(path, io.cwd)} cannot be read: ${read.reason}.`);
  found.set(real, { path, real, text: read.text });
  return undefined;
}

/** The sheets in a folder and in the folders in it. Links to folders are not followed, so that nothing is walked twice. */
function sheetsUnder(folder: string, io: Io): { readonly kind: 'paths'; readonly paths: readonly string[] } | Refusal {
  const listed = io.files.list(folder);
  if (listed.kind === 'failed') return refusal(`${nameOfPath(folder, io.cwd)} cannot be read: ${listed.reason}.`);
  const paths: string[] = [];
  for (const { name, kind } of [...listed.entries].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, name);
    if (kind === 'file' && name.endsWith(suffix)) paths.push(path);
    if (kind !== 'folder' || name === 'node_modules' || name.startsWith('.')) continue;
    const inner = sheetsUnder(path, io);
    if (inner.kind === 'refusal') return inner;
    paths.push(...inner.paths);
  }
  return { kind: 'paths', paths };
}

/**
 * The nearest folder, from the one that holds all of `folders` upwards, in which a package or a repository begins
 * (`package.json`, `.git`); where there is none, the folder that holds them all.
 */
function workspaceOf(folders: readonly string[], { files }: { readonly files: Files }): string {
  const common = folders.reduce(commonFolder);
  for (let folder = common; ; folder = dirname(folder)) {
    if (['package.json', '.git'].some((mark) => isThere(join(folder, mark), files))) return folder;
    if (dirname(folder) === folder) return common;
  }
}

function isThere(path: string, files: Files): boolean {
  const { kind } = files.look(path);
  return kind === 'file' || kind === 'folder';
}

function commonFolder(a: string, b: string): string {
  let common = a;
  while (!`${b}/`.startsWith(common.endsWith('/') ? common : `${common}/`) && dirname(common) !== common) {
    common = dirname(common);
  }
  return common;
}
