import type { Position, SourceRange } from '@quarrel/model';
import { type AstNode, type CstNode, CstUtils } from 'langium';
import { firstKeyword, firstWordOf, lastKeyword, pieceOfProperty } from '../syntax/pieces.js';

/** Places in one sheet. */
export class Places {
  /** `lead` is how many characters stand on the first line before the text that is spoken of. */
  constructor(
    readonly uri: string,
    readonly lead = 0,
  ) {}

  at({ line, character }: { readonly line: number; readonly character: number }): Position {
    return { line, column: line === 0 ? Math.max(0, character - this.lead) : character };
  }

  /** The stretch of a piece of text; the sheet's beginning for what the parser had to make up. */
  of(piece: CstNode | undefined): SourceRange {
    if (piece === undefined) return { uri: this.uri, start: { line: 0, column: 0 }, end: { line: 0, column: 0 } };
    const { start, end } = piece.range;
    return { uri: this.uri, start: this.at(start), end: this.at(end) };
  }

  ofNode(node: AstNode): SourceRange {
    return this.of(node.$cstNode);
  }

  /** Where `property` of a node stands, or the node's first word where it has none. */
  ofProperty(node: AstNode, property: string, index?: number): SourceRange {
    return this.of(pieceOfProperty(node.$cstNode, property, index) ?? firstWord(node));
  }

  /** Where a declaration's name stands, or the word that begins it. */
  ofName(node: AstNode): SourceRange {
    return this.ofProperty(node, 'name');
  }

  ofFirstWord(node: AstNode): SourceRange {
    return this.of(firstWord(node));
  }

  /** Between the braces of a node; nothing where it has none. */
  inside(node: AstNode): SourceRange | undefined {
    const open = firstKeyword(node.$cstNode, '{');
    const close = lastKeyword(node.$cstNode, '}');
    if (open === undefined || close === undefined) return undefined;
    return { uri: this.uri, start: this.of(open).end, end: this.of(close).start };
  }

  /** From behind the last word or comment between the braces of a node to behind the closing one. */
  closing(node: AstNode): SourceRange | undefined {
    const close = lastKeyword(node.$cstNode, '}');
    if (close === undefined) return undefined;
    return this.#stretch(close, trimmed(close.root.fullText, close.offset), close.end);
  }

  /** From the first word of a node to the last one before `block`. */
  upTo(node: AstNode, block: AstNode | undefined): SourceRange | undefined {
    const [piece, end] = [node.$cstNode, block?.$cstNode];
    return piece === undefined || end === undefined
      ? undefined
      : this.#stretch(piece, piece.offset, trimmed(piece.root.fullText, end.offset));
  }

  /**
   * What goes when a node is taken out: the node, the space and a doc comment before it, and the `;` that parts it from its
   * neighbour on the same line.
   */
  cut(node: AstNode): SourceRange | undefined {
    const piece = node.$cstNode;
    if (piece === undefined) return undefined;
    const text = piece.root.fullText;
    const comment = CstUtils.findCommentNode(piece, ['ML_COMMENT']);
    const begin = comment?.text.startsWith('/**') === true ? comment.offset : piece.offset;
    let start = trimmed(text, begin);
    let end = piece.end;
    const isBeside = !text.slice(start, begin).includes('\n');
    if (start === 0) end += spaceAt(text, end);
    else if (isBeside && text[start - 1] === ';') start = trimmed(text, start - 1);
    else if (isBeside && text[start - 1] === '{') end += separatorAt(text, end);
    // Nothing is left between the braces.
    if (text[start - 1] === '{' && text[end + spaceAt(text, end)] === '}') end += spaceAt(text, end);
    return this.#stretch(piece, start, end);
  }

  #stretch({ root }: CstNode, from: number, to: number): SourceRange | undefined {
    const text = root.astNode.$document?.textDocument;
    if (text === undefined) return undefined;
    return { uri: this.uri, start: this.at(text.positionAt(from)), end: this.at(text.positionAt(to)) };
  }

  /** From the beginning of `first` to the end of `last`. */
  between(first: AstNode, last: AstNode): SourceRange {
    return { uri: this.uri, start: this.ofNode(first).start, end: this.ofNode(last).end };
  }
}

function firstWord(node: AstNode): CstNode | undefined {
  return node.$cstNode === undefined ? undefined : firstWordOf(node.$cstNode);
}

/** The end of the last thing that stands before `offset`. */
function trimmed(text: string, offset: number): number {
  let end = offset;
  while (end > 0 && isSpace(text, end - 1)) end -= 1;
  return end;
}

/** Nearly every space of a sheet is one of the first four; a pattern for each character would cost too much. */
function isSpace(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code === 32 || code === 10 || code === 13 || code === 9 || (code > 127 && /\s/.test(text.charAt(at)));
}

/** How many characters of white space stand at `offset`. */
function spaceAt(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && isSpace(text, end)) end += 1;
  return end - offset;
}

/** How many characters a `;` takes that stands on the same line next, with the space before it; none where it does not. */
function separatorAt(text: string, offset: number): number {
  const space = spaceAt(text, offset);
  return text[offset + space] === ';' && !text.slice(offset, offset + space).includes('\n') ? space + 1 : 0;
}

/** What the doc comment directly above a declaration says, without its stars. */
export function documentationOf(node: AstNode): string | undefined {
  const comment = CstUtils.findCommentNode(node.$cstNode, ['ML_COMMENT'])?.text;
  if (comment === undefined || !comment.startsWith('/**')) return undefined;
  const text = comment
    .slice(3, -2)
    .split('\n')
    .map((line) => line.replace(/^\s*\* ?/, '').trimEnd())
    .join('\n')
    .trim();
  return text === '' ? undefined : text;
}
