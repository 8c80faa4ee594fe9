import { isSheetDocument } from '@quarrel/language';
import { CstUtils, type LangiumDocument, type LeafCstNode } from 'langium';
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';

/** What can be folded away: blocks, with the line of their closing brace in sight, comments, and the `use` lines. */
export function foldingRanges(document: LangiumDocument): FoldingRange[] {
  const root = document.parseResult.value.$cstNode;
  if (!isSheetDocument(document) || root === undefined) return [];
  const open: LeafCstNode[] = [];
  const folds: FoldingRange[] = [];
  let lines: LeafCstNode[] = [];
  const closeLines = (): void => {
    folds.push(...fold(lines[0], lines.at(-1), FoldingRangeKind.Comment));
    lines = [];
  };
  for (const leaf of CstUtils.flattenCst(root)) {
    const isLine = leaf.tokenType.name === 'SL_COMMENT';
    const last = lines.at(-1);
    if (last !== undefined && !(isLine && leaf.range.start.line === last.range.end.line + 1)) closeLines();
    if (isLine) lines.push(leaf);
    else if (leaf.hidden) folds.push(...fold(leaf, leaf, FoldingRangeKind.Comment));
    else if (leaf.text === '{') open.push(leaf);
    else if (leaf.text === '}') folds.push(...block(open.pop(), leaf));
  }
  closeLines();
  const { uses } = document.parseResult.value;
  folds.push(...fold(uses[0]?.$cstNode, uses.at(-1)?.$cstNode, FoldingRangeKind.Imports));
  return folds;
}

type Piece = Pick<LeafCstNode, 'range'>;

function fold(first: Piece | undefined, last: Piece | undefined, kind: FoldingRangeKind): readonly FoldingRange[] {
  if (first === undefined || last === undefined) return [];
  const [startLine, endLine] = [first.range.start.line, last.range.end.line];
  return endLine > startLine ? [{ startLine, endLine, kind }] : [];
}

function block(open: Piece | undefined, close: Piece): readonly FoldingRange[] {
  if (open === undefined) return [];
  const [startLine, endLine] = [open.range.start.line, close.range.start.line - 1];
  return endLine > startLine ? [{ startLine, endLine }] : [];
}
