import type { Position as ModelPosition, SourceRange } from '@quarrel/model';
import type { Location, Position, Range } from 'vscode-languageserver';

/** A place of the model as the protocol writes it; both count from 0 in UTF-16 code units. */
export function positionOf({ line, column }: ModelPosition): Position {
  return { line, character: column };
}

export function rangeOf({ start, end }: Pick<SourceRange, 'start' | 'end'>): Range {
  return { start: positionOf(start), end: positionOf(end) };
}

export function locationOf(range: SourceRange): Location {
  return { uri: range.uri, range: rangeOf(range) };
}

/** Whether two stretches share a place; touching counts, so that a cursor at the end of a word is at the word. */
export function overlap(a: Range, b: Range): boolean {
  return !isBefore(a.end, b.start) && !isBefore(b.end, a.start);
}

export function isBefore(a: Position, b: Position): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}

export function contains(outer: Range, position: Position): boolean {
  return !isBefore(position, outer.start) && !isBefore(outer.end, position);
}
