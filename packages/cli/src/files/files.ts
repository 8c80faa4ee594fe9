/** Something that could not be done, with the reason in plain words. */
export interface Failed {
  readonly kind: 'failed';
  readonly reason: string;
}

/** What is at a path; links are followed. `real` is the path without links. */
export type Look =
  | { readonly kind: 'file'; readonly size: number; readonly real: string }
  | { readonly kind: 'folder'; readonly real: string }
  /** A device, a pipe and the like. */
  | { readonly kind: 'neither' }
  | { readonly kind: 'missing' }
  | Failed;

/** What stands in a folder. A link to a folder is a `linked-folder`, any other link is taken for what it leads to. */
export interface Entry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'linked-folder' | 'neither';
}

/** The little that the command does with files. Paths are absolute; nothing throws on what is or is not there. */
export interface Files {
  look(path: string): Look;
  list(folder: string): { readonly kind: 'entries'; readonly entries: readonly Entry[] } | Failed;
  read(path: string): { readonly kind: 'bytes'; readonly bytes: Uint8Array } | Failed;
  /** Makes a folder and those above it; `made` is the topmost that was not there, if any. */
  makeFolder(path: string): { readonly kind: 'folder'; readonly made?: string } | Failed;
  /** Writes a file under a temporary name in the folder of `path`, with the permissions of what is at `path`. */
  writeBeside(path: string, text: string): { readonly kind: 'written'; readonly temporary: string } | Failed;
  /** Puts a file in the place of another in one go. */
  rename(from: string, to: string): { readonly kind: 'renamed' } | Failed;
  /** Removes a file, or a folder with all in it; nothing happens where it is not there. */
  remove(path: string): void;
  /** Does `work` to its end even where the person at the keyboard interrupts. */
  undisturbed<T>(work: () => T): T;
}
