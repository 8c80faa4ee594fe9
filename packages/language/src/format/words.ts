import { type AstNode, CstUtils, type LeafCstNode } from 'langium';

/** A comment and what stood before it. */
export interface Comment {
  readonly kind: 'comment';
  /** Its lines as written, the first without what stands before it. */
  readonly lines: readonly [string, ...string[]];
  /** The column of its first character, where its other lines were aimed at. */
  readonly column: number;
  /** Whether the line ends with it, as it does behind `//`. */
  readonly endsLine: boolean;
  /** Line breaks between it and what stands before it; two or more leave an empty line. */
  readonly breaks: number;
}

/** Comments between two words, and the line breaks there. */
export interface Gap {
  readonly comments: readonly Comment[];
  /** Line breaks directly before the word. */
  readonly breaks: number;
  /** How many of the comments stand before the first `;`; missing where there is none. */
  readonly separatedAfter?: number;
}

/** A word of the sheet that counts: everything but white space, comments and `;`. */
export interface Word {
  readonly text: string;
  readonly isName: boolean;
  /**
   * Whether it is a name that is spelled like a word of the language, which it is only beside its neighbour on the left
   * (src/syntax/naming.ts).
   */
  readonly clings: boolean;
  readonly node: AstNode;
  readonly offset: number;
  readonly end: number;
  readonly before: Gap;
}

/** The words of a parsed sheet in order, and what stands behind the last; `language` holds the words of the language. */
export function wordsOf(
  sheet: AstNode,
  text: string,
  language: ReadonlySet<string>,
): { readonly words: readonly Word[]; readonly rest: Gap } {
  const words: Word[] = [];
  let gap = emptyGap();
  let line = 0;
  for (const leaf of leavesOf(sheet)) {
    const image = text.slice(leaf.offset, leaf.end);
    const { start, end } = leaf.range;
    gap.breaks = Math.max(gap.breaks, start.line - line);
    line = end.line;
    if (leaf.hidden) {
      gap.comments.push(commentOf(image, start.character, gap.breaks));
      gap.breaks = 0;
    } else if (image === ';') {
      gap.separatedAfter ??= gap.comments.length;
    } else {
      const isName = leaf.tokenType.name === 'ID';
      const clings = isName && language.has(image);
      const { astNode: node, offset } = leaf;
      words.push({ text: image, isName, clings, node, offset, end: leaf.end, before: gap });
      gap = emptyGap();
    }
  }
  return { words, rest: gap };
}

interface GrowingGap {
  comments: Comment[];
  breaks: number;
  separatedAfter?: number;
}

function emptyGap(): GrowingGap {
  return { comments: [], breaks: 0 };
}

function leavesOf(sheet: AstNode): Iterable<LeafCstNode> {
  return sheet.$cstNode === undefined ? [] : CstUtils.flattenCst(sheet.$cstNode);
}

function commentOf(image: string, column: number, breaks: number): Comment {
  const [first = '', ...others] = image.split(/\r\n|\r|\n/).map((line) => line.trimEnd());
  return { kind: 'comment', lines: [first, ...others], column, endsLine: image.startsWith('//'), breaks };
}

/**
 * The lines of a comment that begins at `column`: a column of stars stands under the first star, other text keeps its place
 * relative to the comment's beginning.
 */
export function commentLines({ lines, column: written }: Comment, column: number): readonly string[] {
  const [first, ...others] = lines;
  const starred = others.every((line) => line === '' || line.trimStart().startsWith('*'));
  return [
    first,
    ...others.map((line) => {
      const content = line.trimStart();
      if (content === '') return '';
      const indent = starred ? column + 1 : indentOf(line, content) + column - written;
      return `${' '.repeat(Math.max(indent, 0))}${content}`;
    }),
  ];
}

/** How far a line is indented; a tab counts as one step of the house style. */
function indentOf(line: string, content: string): number {
  const space = [...line.slice(0, line.length - content.length)];
  return space.reduce((width, character) => width + (character === '\t' ? 2 : 1), 0);
}
