import type { Position, TextEdit } from 'vscode-languageserver-protocol/node';

/** Where the lines of a text begin. A line ends with a line feed, a carriage return, or both. */
function lineStarts(text: string): readonly number[] {
  return [0, ...[...text.matchAll(/\r\n|\r|\n/g)].map(({ index, 0: end }) => index + end.length)];
}

/** The place of an offset, as the protocol counts. */
export function placeIn(text: string, offset: number): Position {
  const starts = lineStarts(text);
  const line = starts.findLastIndex((start) => start <= offset);
  return { line, character: offset - (starts[line] ?? 0) };
}

/** A text after edits that do not touch each other, all of which speak of the text as it is. */
export function applied(text: string, edits: readonly TextEdit[] | null): string {
  const starts = lineStarts(text);
  const offset = ({ line, character }: Position): number =>
    Math.min((starts[line] ?? text.length) + character, text.length);
  return [...(edits ?? [])]
    .sort((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (done, { range, newText }) => `${done.slice(0, offset(range.start))}${newText}${done.slice(offset(range.end))}`,
      text,
    );
}
