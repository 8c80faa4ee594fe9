import type { SourceRange } from '@quarrel/model';
import { printable } from './printable.js';
import { lineWidth } from './rows.js';
import { widthOf } from './width.js';

const tab = '  ';

/**
 * The line on which a range begins, with its number, and a marker under as much of the range as stands on it. A long line is
 * cut to the part round the range.
 */
export function excerpt(text: string, { start, end }: SourceRange, paint: (marker: string) => string): string {
  const line = (text.split(/\r\n|\r|\n/)[start.line] ?? '').trimEnd();
  const indent = /^\s*/.exec(line)?.[0].length ?? 0;
  const from = Math.min(start.column, line.length);
  const to = end.line > start.line ? line.length : Math.min(end.column, line.length);
  const before = shown(line.slice(Math.min(indent, from), from));
  const marked = shown(line.slice(from, to));
  const after = shown(line.slice(to));
  const number = `  ${start.line + 1}  `;
  const room = lineWidth - number.length;
  const cut = cutRound(before, marked, after, room);
  const marker = '='.repeat(Math.max(1, Math.min(widthOf(cut.marked), room)));
  return `${number}${cut.before}${cut.marked}${cut.after}\n${' '.repeat(number.length + widthOf(cut.before))}${paint(marker)}\n`;
}

function shown(text: string): string {
  return printable(text.replaceAll('\t', tab));
}

interface Parts {
  readonly before: string;
  readonly marked: string;
  readonly after: string;
}

function cutRound(before: string, marked: string, after: string, room: number): Parts {
  if (fits(before + marked + after, room)) return { before, marked, after };
  const middle = start(marked, Math.floor(room * 0.7));
  const rest = room - widthOf(middle);
  const left = end(before, Math.floor(rest / 2));
  return { before: left, marked: middle, after: start(after, rest - widthOf(left)) };
}

/** As much of the start of a text as there is room for, with a sign that it goes on. */
function start(text: string, room: number): string {
  if (fits(text, room)) return text;
  const kept = fitting(text, room - 1);
  return `${kept.join('')}…`;
}

/** As much of the end of a text as there is room for, with a sign that something comes before it. */
function end(text: string, room: number): string {
  if (fits(text, room)) return text;
  const kept = fitting([...text].reverse(), room - 1);
  return `…${kept.reverse().join('')}`;
}

/** Whether there is room for a text; a line may be as long as a sheet, so that it is not measured whole. */
function fits(text: string, room: number): boolean {
  const kept = fitting(text, room);
  return kept.join('').length === text.length;
}

/** The first characters for which there is room. */
function fitting(characters: Iterable<string>, room: number): string[] {
  const kept: string[] = [];
  let width = 0;
  for (const character of characters) {
    width += widthOf(character);
    if (width > room) break;
    kept.push(character);
  }
  return kept;
}
