import type { Edit } from '@quarrel/checks';
import type { Position } from '@quarrel/model';
import { nameOf, type Texts } from './reading.js';

/** Makes the edits in the texts, the last first, so that the places of the others stay. */
export function applied(texts: Texts, edits: readonly Edit[]): Texts {
  const result: Record<string, string> = { ...texts };
  const places = edits.map((edit) => {
    const name = nameOf(edit.range.uri);
    const text = texts[name];
    if (text === undefined) throw new Error(`an edit of a sheet that is not here: ${edit.range.uri}`);
    return { name, text: edit.text, start: offsetOf(text, edit.range.start), end: offsetOf(text, edit.range.end) };
  });
  for (const { name, text, start, end } of [...places].sort((a, b) => b.start - a.start)) {
    const old = result[name] ?? '';
    result[name] = old.slice(0, start) + text + old.slice(end);
  }
  return result;
}

/** A place in one of the texts. */
export interface Place {
  readonly uri: string;
  readonly start: Position;
}

/**
 * Where something stands once the edits are made; what they write anew stands where they begin. Nothing where they have taken it
 * out.
 */
export function placeAfter(texts: Texts, edits: readonly Edit[], { uri, start }: Place): Place | undefined {
  const text = texts[nameOf(uri)] ?? '';
  const offset = offsetOf(text, start);
  const own = edits
    .filter(({ range }) => range.uri === uri)
    .map(({ range, text: put }) => ({ from: offsetOf(text, range.start), to: offsetOf(text, range.end), put }));
  if (own.some(({ from, to, put }) => put === '' && from <= offset && offset < to)) return undefined;
  const moved = own
    .filter(({ from, to }) => to <= offset && (from < offset || from === to))
    .reduce((shift, { from, to, put }) => shift + put.length - (to - from), 0);
  const around = own.find(({ from, to }) => from < offset && offset < to);
  const after = applied(texts, edits)[nameOf(uri)] ?? '';
  const lines = after.slice(0, (around?.from ?? offset) + moved).split('\n');
  return { uri, start: { line: lines.length - 1, column: lines.at(-1)?.length ?? 0 } };
}

/** The offset of a position; one that lies outside of the text, or of its line, is a slip of the edit. */
export function offsetOf(text: string, { line, column }: Position): number {
  const lines = text.split('\n');
  if (column > (lines[line]?.length ?? -1)) throw new Error(`no place in the text: ${line}:${column}`);
  return lines.slice(0, line).join('\n').length + (line > 0 ? 1 : 0) + column;
}
