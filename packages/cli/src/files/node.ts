import { randomUUID } from 'node:crypto';
import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Entry, Failed, Files, Look } from './files.js';

/** The files of this machine. `undisturbed` comes from whoever hears the signals. */
export function nodeFiles(undisturbed: Files['undisturbed']): Files {
  return {
    look,
    list: (folder) =>
      attempt(() => {
        const entries = readdirSync(folder, { withFileTypes: true }).map((entry): Entry => {
          if (!entry.isSymbolicLink()) return { name: entry.name, kind: kindOf(entry) };
          const behind = look(join(folder, entry.name));
          // A link that leads nowhere is told of when it is read.
          if (behind.kind === 'folder') return { name: entry.name, kind: 'linked-folder' };
          return { name: entry.name, kind: behind.kind === 'neither' ? 'neither' : 'file' };
        });
        return { kind: 'entries', entries } as const;
      }),
    read: (path) => attempt(() => ({ kind: 'bytes', bytes: readFileSync(path) }) as const),
    makeFolder: (path) =>
      attempt(() => {
        const made = mkdirSync(path, { recursive: true });
        return { kind: 'folder', ...(made === undefined ? {} : { made }) } as const;
      }),
    writeBeside: (path, text) => {
      const temporary = join(dirname(path), `.${basename(path)}.${randomUUID().slice(0, 8)}.tmp`);
      const written = attempt(() => {
        writeFileSync(temporary, text, { flag: 'wx' });
        const mode = statSync(path, { throwIfNoEntry: false })?.mode;
        if (mode !== undefined) chmodSync(temporary, mode & 0o777);
        return { kind: 'written', temporary } as const;
      });
      if (written.kind === 'failed') rmSync(temporary, { force: true });
      return written;
    },
    rename: (from, to) =>
      attempt(() => {
        renameSync(from, to);
        return { kind: 'renamed' } as const;
      }),
    remove: (path) => rmSync(path, { force: true, recursive: true }),
    undisturbed,
  };
}

function look(path: string): Look {
  const found = attempt(() => {
    const stats = statSync(path, { throwIfNoEntry: false });
    if (stats === undefined) return { kind: 'missing' } as const;
    const kind = kindOf(stats);
    if (kind === 'neither') return { kind } as const;
    const real = realpathSync(path);
    return kind === 'file' ? ({ kind, size: stats.size, real } as const) : ({ kind, real } as const);
  });
  return found;
}

function kindOf(entry: { isFile(): boolean; isDirectory(): boolean }): 'file' | 'folder' | 'neither' {
  if (entry.isFile()) return 'file';
  return entry.isDirectory() ? 'folder' : 'neither';
}

function attempt<T>(work: () => T): T | Failed {
  try {
    return work();
  } catch (error) {
    const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
    if (code === undefined) throw error;
    return { kind: 'failed', reason: reasons[code] ?? `the system says ${code}` };
  }
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: 'there is no permission for it',
  EPERM: 'there is no permission for it',
  EROFS: 'it lies on something that can only be read',
  ENOENT: 'it is not there',
  ENOTDIR: 'a part of its path is a file',
  EISDIR: 'it is a folder',
  EEXIST: 'something of that name is there already',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk space allowed is used up',
  ELOOP: 'it is a link that leads back to itself',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open',
  EBUSY: 'something else is using it',
};
