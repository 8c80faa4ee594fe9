import { conversionsOf } from '@quarrel/checks';
import { ast, Places, type SheetDocument } from '@quarrel/language';
import type { Quantity } from '@quarrel/model';
import { AstUtils } from 'langium';
import { type CodeAction, CodeActionKind, type CodeActionParams } from 'vscode-languageserver';
import { leafAt } from '../cursor.js';
import { amountOf } from '../hover/quantity.js';
import { workspaceEdit } from './edits.js';

/** The quantity at the cursor in other units; both ends of a span together. */
export function rewrites(document: SheetDocument, { range }: CodeActionParams): CodeAction[] {
  const leaf = leafAt(document, range.start);
  const node = AstUtils.getContainerOfType(leaf?.astNode, ast.isQuantity);
  if (node === undefined || isDifference(node)) return [];
  const ends = endsWith(node).flatMap((end) => quantityOf(end, document) ?? []);
  return conversionsOf(ends).map(({ title, edits }) => ({
    title,
    kind: CodeActionKind.RefactorRewrite,
    edit: workspaceEdit(edits),
  }));
}

/** A quantity, or both ends of the span that it is one of. */
function endsWith(node: ast.Quantity): readonly ast.Quantity[] {
  const { $container } = node;
  return 'high' in $container && 'low' in $container && $container.low !== undefined && $container.high !== undefined
    ? [$container.low, $container.high]
    : [node];
}

/** A difference of temperatures is no temperature: 15 K more are not −258 °C more. */
function isDifference(node: ast.Quantity): boolean {
  return AstUtils.getContainerOfType(node, ast.isAssume)?.topic === 'warming';
}

function quantityOf(node: ast.Quantity, document: SheetDocument): Quantity | undefined {
  const amount = amountOf(node);
  if (amount === undefined || node.$cstNode === undefined) return undefined;
  const text = node.amounts.map(({ number, unit }) => `${number} ${unit ?? amount.unit}`).join(' ');
  return { ...amount, text, range: new Places(document.uri.toString()).ofNode(node) };
}
