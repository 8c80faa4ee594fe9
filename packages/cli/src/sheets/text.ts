import type { Files } from '../files/files.js';

/** The most a sheet may have; a long procedure has a hundredth of it. */
const mostBytes = 4 * 1024 * 1024;

export type ReadText =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'unreadable'; readonly reason: string };

/** The text of a sheet at an absolute path, with its byte order mark if it has one, or why it has none. */
export function readText(path: string, files: Files): ReadText {
  const there = files.look(path);
  if (there.kind === 'failed') return unreadable(there.reason);
  if (there.kind === 'missing') return unreadable('it is not there');
  if (there.kind !== 'file') return unreadable('it is not a file');
  if (there.size > mostBytes) return unreadable(tooLarge(there.size));
  const read = files.read(path);
  if (read.kind === 'failed') return unreadable(read.reason);
  if (read.bytes.length > mostBytes) return unreadable(tooLarge(read.bytes.length));
  // No text has a NUL in it, and some files of programs are valid UTF-8 beside.
  if (read.bytes.includes(0)) return unreadable('it is not text');
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(read.bytes) };
  } catch {
    return unreadable('it is not text in UTF-8');
  }
}

function unreadable(reason: string): ReadText {
  return { kind: 'unreadable', reason };
}

function tooLarge(bytes: number): string {
  const mebibytes = (bytes / 1024 / 1024).toFixed(1);
  return `it has ${mebibytes} MiB, and a sheet has at most ${mostBytes / 1024 / 1024} MiB`;
}
