import { type Comment, commentLines } from './words.js';

/** Lines are kept within this many columns where they can be folded. */
const widest = 100;

/** What is folded together or not at all: a block and its clauses, a list, the parts of a test. */
export interface Group {
  /** Whether its breaks are line breaks; set by the printer where it does not fit on the line. */
  folded: boolean;
}

/** What a sheet is printed from. */
export type Piece =
  | { readonly kind: 'text'; readonly text: string }
  | Comment
  /** The group begins here. */
  | { readonly kind: 'group'; readonly group: Group }
  /** `flat` is written where the group is not folded; without a group the line always breaks. */
  | Break;

export interface Break {
  readonly kind: 'break';
  readonly group?: Group;
  /** Whether the line breaks here only where what follows would not fit on it, although the group is folded. */
  readonly fills: boolean;
  readonly flat: string;
  /** The column the next line begins at. */
  readonly indent: number;
  /** Whether an empty line is left. */
  readonly empty: boolean;
}

/** Prints pieces, folding the groups that do not fit; `lineEnd` stands between lines. */
export function print(pieces: readonly Piece[], lineEnd: string): string {
  const printed: string[] = [];
  let column = 0;
  const write = (text: string): void => {
    printed.push(text);
    column += text.length;
  };
  for (const [at, piece] of pieces.entries()) {
    switch (piece.kind) {
      case 'text':
        write(piece.text);
        break;
      case 'comment':
        for (const [index, line] of commentLines(piece, column).entries()) {
          if (index > 0) {
            printed.push(lineEnd);
            column = 0;
          }
          write(line);
        }
        break;
      case 'group':
        piece.group.folded ||= !fits(pieces, at + 1, widest - column);
        break;
      case 'break':
        if (breaksLine(piece) && !(piece.fills && fits(pieces, at + 1, widest - column - piece.flat.length))) {
          printed.push(lineEnd.repeat(piece.empty ? 2 : 1), ' '.repeat(piece.indent));
          column = piece.indent;
        } else {
          write(piece.flat);
        }
        break;
    }
  }
  return printed.join('');
}

/**
 * Whether what stands from `from` on, up to where the line may break, takes at most `room`. Looks no further than that room,
 * so that printing takes time in proportion to the text.
 */
function fits(pieces: readonly Piece[], from: number, room: number): boolean {
  let left = room;
  for (let at = from; left >= 0; at += 1) {
    const piece = pieces[at];
    switch (piece?.kind) {
      case undefined:
        return true;
      case 'text':
        if (isBesideComment(piece.text, pieces[at + 1])) return true;
        left -= piece.text.length;
        break;
      case 'comment':
        left -= piece.lines[0].length;
        if (piece.lines.length > 1) return left >= 0;
        break;
      case 'break':
        if (breaksLine(piece)) return true;
        left -= piece.flat.length;
        break;
      case 'group':
        break;
    }
  }
  return false;
}

/** Whether a space stands before a comment that ends the line: it may stand out, and folding the line would not help it. */
function isBesideComment(text: string, next: Piece | undefined): boolean {
  return text === ' ' && next?.kind === 'comment' && next.endsLine;
}

function breaksLine({ group }: Break): boolean {
  return group === undefined || group.folded;
}
