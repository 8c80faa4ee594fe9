import { posix } from 'node:path';
import { type Entry, type ExitCode, type Files, type Look, run } from '@quarrel/cli';
import { expect } from 'vitest';

/** What came of running the command. */
export interface Outcome {
  readonly code: ExitCode;
  readonly out: string;
  readonly err: string;
}

/** What goes wrong with a path, by what is done to it. */
export type Trouble = Readonly<Record<string, 'list' | 'read' | 'write' | 'rename' | 'folder' | 'device'>>;

/** A machine in memory: files by absolute path. The command runs in `/shop`. */
export interface World {
  readonly files: Map<string, string | Uint8Array>;
  /** How often the language server has been started. */
  readonly served: () => number;
  quarrel(...argv: readonly string[]): Promise<Outcome>;
}

export function world(
  texts: Readonly<Record<string, string | Uint8Array>>,
  trouble: Trouble = {},
  options: { readonly colours?: boolean; readonly debug?: boolean } = {},
): World {
  const files = new Map(Object.entries(texts).map(([path, text]) => [posix.resolve('/shop', path), text]));
  const io = { files: memoryFiles(files, trouble), colours: options.colours ?? false, debug: options.debug ?? false };
  let served = 0;
  return {
    files,
    served: () => served,
    quarrel: async (...argv) => {
      const out: string[] = [];
      const err: string[] = [];
      const code = await run(argv, {
        cwd: '/shop',
        stdout: { write: (text) => out.push(text), colours: io.colours },
        stderr: { write: (text) => err.push(text), colours: io.colours },
        files: io.files,
        debug: io.debug,
        serve: async () => {
          served += 1;
        },
      });
      return { code, out: out.join(''), err: err.join('') };
    },
  };
}

/** Fails unless the same files are there, with the same in them. */
export function expectSame(files: World['files'], before: World['files']): void {
  expect([...files.keys()]).toEqual([...before.keys()]);
  for (const [path, text] of files) expect(text === before.get(path), `${path} is as it was`).toBe(true);
}

function memoryFiles(files: Map<string, string | Uint8Array>, trouble: Trouble): Files {
  const failed = { kind: 'failed', reason: 'there is no permission for it' } as const;
  const isFolder = (path: string): boolean =>
    path === '/' || path === '/shop' || [...files.keys()].some((file) => file.startsWith(`${path}/`));
  const look = (path: string): Look => {
    if (trouble[path] === 'device') return { kind: 'neither' };
    const file = files.get(path);
    if (file !== undefined) return { kind: 'file', size: bytesOf(file).length, real: path };
    return isFolder(path) ? { kind: 'folder', real: path } : { kind: 'missing' };
  };
  return {
    look,
    list: (folder) => {
      if (trouble[folder] === 'list') return failed;
      const start = folder === '/' ? '/' : `${folder}/`;
      const names = [...files.keys()].filter((path) => path.startsWith(start)).map((path) => path.slice(start.length));
      const entries = [...new Set(names.map((name) => name.replace(/\/.*/, '')))].map((name): Entry => {
        const { kind } = look(start + name);
        return { name, kind: kind === 'file' || kind === 'folder' ? kind : 'neither' };
      });
      return { kind: 'entries', entries };
    },
    read: (path) => {
      const file = files.get(path);
      return file === undefined || trouble[path] === 'read' ? failed : { kind: 'bytes', bytes: bytesOf(file) };
    },
    makeFolder: (path) => {
      if (trouble[path] === 'folder') return failed;
      return isFolder(path) ? { kind: 'folder' } : { kind: 'folder', made: path };
    },
    writeBeside: (path, text) => {
      if (trouble[path] === 'write') return failed;
      files.set(`${path}.tmp`, text);
      return { kind: 'written', temporary: `${path}.tmp` };
    },
    rename: (from, to) => {
      const file = files.get(from);
      if (file === undefined || trouble[to] === 'rename') return failed;
      files.delete(from);
      files.set(to, file);
      return { kind: 'renamed' };
    },
    remove: (path) => {
      for (const file of [...files.keys()]) if (file === path || file.startsWith(`${path}/`)) files.delete(file);
    },
    undisturbed: (work) => work(),
  };
}

function bytesOf(file: string | Uint8Array): Uint8Array {
  return typeof file === 'string' ? new TextEncoder().encode(file) : file;
}
