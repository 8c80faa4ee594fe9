import type { Position, SourceRange } from '@quarrel/model';
import { type AstNode, type CstNode, CstUtils, GrammarUtils } from 'langium';

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
    return this.of(GrammarUtils.findNodeForProperty(node.$cstNode, property, index) ?? firstWord(node));
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
    const open = GrammarUtils.findNodeForKeyword(node.$cstNode, '{');
    const close = GrammarUtils.findNodesForKeyword(node.$cstNode, '}').at(-1);
    if (open === undefined || close === undefined) return undefined;
    return { uri: this.uri, start: this.of(open).end, end: this.of(close).start };
  }

  /** From the beginning of `first` to the end of `last`. */
  between(first: AstNode, last: AstNode): SourceRange {
    return { uri: this.uri, start: this.ofNode(first).start, end: this.ofNode(last).end };
  }
}

function firstWord(node: AstNode): CstNode | undefined {
  return node.$cstNode === undefined
    ? undefined
    : (CstUtils.flattenCst(node.$cstNode).find((leaf) => !leaf.hidden) ?? node.$cstNode);
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
