import { AstUtils, type CstNode, GrammarAST, isCompositeCstNode } from 'langium';

/** Looks up pieces of text in the tree, as Langium's own functions do, in plain loops and no further than they have to go. */

/** The first word of a piece of text; hidden pieces, such as comments, do not count. */
export function firstWordOf(piece: CstNode): CstNode {
  if (!isCompositeCstNode(piece)) return piece;
  for (const inner of piece.content) {
    if (inner.hidden) continue;
    return firstWordOf(inner);
  }
  return piece;
}

/** The piece that gives a property of the node that `piece` belongs to; of a list the one at `index`. */
export function pieceOfProperty(piece: CstNode | undefined, property: string, index = 0): CstNode | undefined {
  if (piece === undefined) return undefined;
  const found: CstNode[] = [];
  gather(piece, property, piece.astNode, found, index);
  return found[Math.min(index, found.length - 1)];
}

function gather(piece: CstNode, property: string, node: unknown, found: CstNode[], index: number): void {
  if (!isCompositeCstNode(piece) || piece.astNode !== node) return;
  for (const inner of piece.content) {
    if (found.length > index) return;
    if (propertyGivenBy(inner) === property) found.push(inner);
    else gather(inner, property, node, found, index);
  }
}

const given = new WeakMap<object, string>();

/** The property that a piece gives by its place in the grammar; none for keywords and the like. */
function propertyGivenBy({ grammarSource }: CstNode): string {
  if (grammarSource === undefined) return '';
  const known = given.get(grammarSource);
  if (known !== undefined) return known;
  const property = AstUtils.getContainerOfType(grammarSource, GrammarAST.isAssignment)?.feature ?? '';
  given.set(grammarSource, property);
  return property;
}

/** The first keyword of this kind that is the node's own, and not of a node in it. */
export function firstKeyword(piece: CstNode | undefined, keyword: string): CstNode | undefined {
  return piece === undefined ? undefined : keywordIn(piece, keyword, piece.astNode, 'first');
}

/** The last keyword of this kind that is the node's own. */
export function lastKeyword(piece: CstNode | undefined, keyword: string): CstNode | undefined {
  return piece === undefined ? undefined : keywordIn(piece, keyword, piece.astNode, 'last');
}

function keywordIn(piece: CstNode, keyword: string, node: unknown, which: 'first' | 'last'): CstNode | undefined {
  if (piece.astNode !== node) return undefined;
  const { grammarSource } = piece;
  if (grammarSource !== undefined && GrammarAST.isKeyword(grammarSource) && grammarSource.value === keyword)
    return piece;
  if (!isCompositeCstNode(piece)) return undefined;
  const { content } = piece;
  for (let step = 0; step < content.length; step += 1) {
    const inner = content[which === 'first' ? step : content.length - 1 - step];
    const found = inner === undefined ? undefined : keywordIn(inner, keyword, node, which);
    if (found !== undefined) return found;
  }
  return undefined;
}
