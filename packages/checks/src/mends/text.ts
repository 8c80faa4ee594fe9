import type { Condition, Position, SourceRange, Vocabulary } from '@quarrel/model';
import type { Edit, Mend } from '../finding.js';

/** The house style keeps lines within this many columns where they can be folded. */
const widest = 100;

/** Puts `text` at a place of the sheet in which `range` stands. */
export function insertAt({ uri }: SourceRange, place: Position, text: string): Edit {
  return { range: { uri, start: place, end: place }, text };
}

/** Puts `text` just before what stands at `range`. */
export function insertBefore(range: SourceRange, text: string): Edit {
  return insertAt(range, range.start, text);
}

/** Puts `text` just behind what stands at `range`. */
export function insertAfter(range: SourceRange, text: string): Edit {
  return insertAt(range, range.end, text);
}

/** Each of some texts in place of what stands there. */
export function writeInstead(range: SourceRange, texts: readonly string[]): readonly Mend[] {
  return texts.map((text) => ({ title: `Write ${text}`, edits: [{ range, text }] }));
}

/** Takes out all that stands at `range`; nothing where the sheet does not say what goes with it. */
export function takeOut(title: string, range: SourceRange | undefined): readonly Mend[] {
  return range === undefined ? [] : [{ title, edits: [{ range, text: '' }] }];
}

/** A line break and the space that a line at this column begins with. */
export function newLine(column: number): string {
  return `\n${' '.repeat(column)}`;
}

/** Whether something this long, beginning at `column`, keeps to the house style. */
export function fits(text: string, column: number): boolean {
  return column + text.length <= widest;
}

/** A text between quotation marks. */
export function quoted(text: string): string {
  return `"${text.replace(/["\\]/g, '\\$&')}"`;
}

/**
 * `head`, a test and `tail` from `column` on; folded before each of its outermost `and`s or `or`s where it would be too wide for
 * one line, `deeper` columns further in.
 */
export function aroundTest(head: string, test: string, tail: string, column: number, deeper: number): string {
  const line = `${head}${test}${tail}`;
  if (fits(line, column)) return line;
  return `${head}${outermostParts(test).join(newLine(column + deeper))}${tail}`;
}

/** A test cut before each `and` and `or` that stands in no brackets. */
function outermostParts(test: string): readonly string[] {
  const parts: string[][] = [[]];
  let depth = 0;
  for (const word of test.split(' ')) {
    if (depth === 0 && (word === 'and' || word === 'or')) parts.push([]);
    parts.at(-1)?.push(word);
    depth += (word.match(/\(/g)?.length ?? 0) - (word.match(/\)/g)?.length ?? 0);
  }
  return parts.map((words) => words.join(' '));
}

/** The first word of what stands at `range`, whose length is `length`; the whole may run over many lines. */
export function headOf(range: SourceRange, length: number): SourceRange {
  const end: Position = { line: range.start.line, column: range.start.column + length };
  return { uri: range.uri, start: range.start, end };
}

/** The condition of this name. */
export function conditionNamed(vocabulary: Vocabulary, name: string): Condition | undefined {
  return [...vocabulary.observations, ...vocabulary.readings].find((condition) => condition.name === name);
}
