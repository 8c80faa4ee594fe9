import { dirname } from 'node:path';
import { type Refusal, refusal } from '../io.js';
import type { Files } from './files.js';

/** A file to be, by its absolute path. */
export interface NewFile {
  readonly path: string;
  readonly text: string;
  /** How it is called in messages. */
  readonly name: string;
}

/**
 * Writes all of the files or none: first every one under a temporary name beside its place, then each is put into its place.
 * Folders are made where they are missing, and taken away again if it comes to nothing.
 */
export function writeTogether(wanted: readonly NewFile[], files: Files): { readonly kind: 'written' } | Refusal {
  return files.undisturbed(() => {
    const made: string[] = [];
    const temporaries: { readonly from: string; readonly file: NewFile }[] = [];
    const undo = (name: string, reason: string): Refusal => {
      for (const { from } of temporaries) files.remove(from);
      for (const folder of made) files.remove(folder);
      return refusal(`${name} cannot be written: ${reason}.`, 'Nothing was written.');
    };
    for (const file of wanted) {
      const folder = files.makeFolder(dirname(file.path));
      if (folder.kind === 'failed') return undo(file.name, folder.reason);
      if (folder.made !== undefined) made.push(folder.made);
      const there = files.look(file.path);
      if (there.kind === 'failed') return undo(file.name, there.reason);
      if (there.kind === 'folder' || there.kind === 'neither') return undo(file.name, 'something else has its name');
      const written = files.writeBeside(file.path, file.text);
      if (written.kind === 'failed') return undo(file.name, written.reason);
      temporaries.push({ from: written.temporary, file });
    }
    for (const [index, { from, file }] of temporaries.entries()) {
      const renamed = files.rename(from, file.path);
      if (renamed.kind === 'renamed') continue;
      const before = temporaries.slice(0, index).map((one) => one.file.name);
      if (before.length === 0) return undo(file.name, renamed.reason);
      for (const rest of temporaries.slice(index)) files.remove(rest.from);
      return refusal(`${file.name} cannot be written: ${renamed.reason}.`, `Written before it: ${before.join(', ')}.`);
    }
    return { kind: 'written' };
  });
}
