import type { SheetDocument } from '@quarrel/language';
import { type AstNode, CstUtils, type LeafCstNode } from 'langium';
import type { Position } from 'vscode-languageserver';
import type { LanguageServices } from '../services.js';

/**
 * The word, text, number or sign at a place. A cursor right behind a word is at the word, as long as nothing but a sign
 * follows it. Nothing between words and in comments.
 */
export function leafAt(document: SheetDocument, position: Position): LeafCstNode | undefined {
  const root = document.parseResult.value.$cstNode;
  if (root === undefined) return undefined;
  const offset = document.textDocument.offsetAt(position);
  const at = visible(CstUtils.findLeafNodeAtOffset(root, offset), offset);
  if (at !== undefined && !isSign(at)) return at;
  const before = offset === 0 ? undefined : visible(CstUtils.findLeafNodeAtOffset(root, offset - 1), offset - 1);
  return before === undefined || isSign(before) ? (at ?? before) : before;
}

/** What the name at a place means: the declarations it refers to, or the one whose name it is. */
export function declarationsAt(
  document: SheetDocument,
  position: Position,
  services: Pick<LanguageServices, 'references'>,
): { readonly leaf: LeafCstNode; readonly declarations: readonly AstNode[] } | undefined {
  const leaf = leafAt(document, position);
  return leaf === undefined ? undefined : { leaf, declarations: services.references.References.findDeclarations(leaf) };
}

function visible(leaf: LeafCstNode | undefined, offset: number): LeafCstNode | undefined {
  return leaf === undefined || leaf.hidden || offset < leaf.offset || offset >= leaf.end ? undefined : leaf;
}

function isSign(leaf: LeafCstNode): boolean {
  return /^[;,:(){}]$/.test(leaf.text);
}
