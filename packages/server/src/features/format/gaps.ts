/** Replaces the text between two offsets. */
export interface GapEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The edits that make one text of another that has the same words: each in one gap between two words, which holds white space
 * and `;` only. So any of them can be left out, and a cursor or a mark in a word stays where it is. None where the words are
 * not the same.
 */
export function gapEdits(before: string, after: string): readonly GapEdit[] {
  const edits: GapEdit[] = [];
  let at = 0;
  let to = 0;
  while (at < before.length || to < after.length) {
    const [end, toEnd] = [gapEnd(before, at), gapEnd(after, to)];
    const edit = trimmed(before.slice(at, end), after.slice(to, toEnd), at);
    if (edit !== undefined) edits.push(edit);
    at = end;
    to = toEnd;
    if (before[at] !== after[to]) return [];
    while (at < before.length && before[at] === after[to] && !isGap(before, at)) {
      at += 1;
      to += 1;
    }
  }
  return edits;
}

function gapEnd(text: string, from: number): number {
  let end = from;
  while (isGap(text, end)) end += 1;
  return end;
}

function isGap(text: string, at: number): boolean {
  return /[\s;]/.test(text[at] ?? '');
}

/** Leaves alone what both gaps begin and end with. */
function trimmed(before: string, after: string, offset: number): GapEdit | undefined {
  if (before === after) return undefined;
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start += 1;
  let end = 0;
  while (end < shorter - start && before.at(-1 - end) === after.at(-1 - end)) end += 1;
  return { start: offset + start, end: offset + before.length - end, text: after.slice(start, after.length - end) };
}
