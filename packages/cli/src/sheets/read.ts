import { fileURLToPath, pathToFileURL } from 'node:url';
import { type ReadResult, readSheets, type SheetText } from '@quarrel/language';
import type { Io } from '../io.js';
import type { Gathered } from './gather.js';
import { readText } from './text.js';

/** The sheets that were gathered, and what they use, as data. */
export function readGathered({ sheets, workspace }: Gathered, io: Io): Promise<ReadResult> {
  const texts = new Map(sheets.map(({ path, text }) => [path, text]));
  return readFiles([...texts.keys()], texts, workspace, io);
}

/** One sheet that was gathered and nothing but what it uses, itself or through others. */
export function readAlone(uri: string, { sheets, workspace }: Gathered, io: Io): Promise<ReadResult> {
  return readFiles([fileURLToPath(uri)], new Map(sheets.map(({ path, text }) => [path, text])), workspace, io);
}

function readFiles(
  paths: readonly string[],
  texts: ReadonlyMap<string, string>,
  workspace: string,
  io: Io,
): Promise<ReadResult> {
  const read = async (uri: string): Promise<SheetText> => {
    if (!uri.startsWith('file:')) return { kind: 'missing' };
    const path = fileURLToPath(uri);
    const known = texts.get(path);
    if (known !== undefined) return { kind: 'text', text: withoutMark(known) };
    if (io.files.look(path).kind === 'missing') return { kind: 'missing' };
    const found = readText(path, io.files);
    return found.kind === 'text' ? { kind: 'text', text: withoutMark(found.text) } : { kind: 'unreadable' };
  };
  return readSheets(
    paths.map((path) => pathToFileURL(path).href),
    { read },
    { workspace: pathToFileURL(workspace).href },
  );
}

/** Without a byte order mark, so that the first line's columns count from its first character. */
function withoutMark(text: string): string {
  return text.replace(/^\uFEFF/, '');
}
