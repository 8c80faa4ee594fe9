import { ast, isSheetDocument, type SheetDocument } from '@quarrel/language';
import { type AstNode, AstUtils, GrammarUtils, type LeafCstNode } from 'langium';
import type { Location, Position, Range } from 'vscode-languageserver';
import type { LanguageServices } from '../services.js';
import { declarationsAt } from './cursor.js';

/** A place that speaks of a declaration, or declares it. */
export interface Usage {
  readonly location: Location;
  /** What the place does with it. */
  readonly how: 'declares' | 'gives' | 'asks';
}

/** Everything that speaks of what the cursor is on, in one sheet or in all, in the order of sheets and lines. */
export function usagesAt(
  document: SheetDocument,
  position: Position,
  services: LanguageServices,
  where: 'here' | 'everywhere',
): readonly Usage[] {
  const found = declarationsAt(document, position, services);
  if (found === undefined) return [];
  const { leaf, declarations } = found;
  if (declarations.length === 0) return waiversOf(leaf, document, services, where);
  return declarations.flatMap((node) =>
    usagesOf(node, services).filter(({ location }) => isSought(location, document, where)),
  );
}

function isSought({ uri }: Location, document: SheetDocument, where: 'here' | 'everywhere'): boolean {
  return where === 'everywhere' || uri === document.uri.toString();
}

/** Where a declaration stands, and every place that refers to it. */
export function usagesOf(node: AstNode, { shared }: LanguageServices): readonly Usage[] {
  const home = AstUtils.findRootNode(node).$document;
  if (home === undefined || !isSheetDocument(home)) return [];
  const name = nameRange(node);
  const own: Usage[] =
    name === undefined ? [] : [{ location: { uri: home.uri.toString(), range: name }, how: 'declares' }];
  const others = shared.workspace.IndexManager.usersOf(home).flatMap((user) => {
    if (!shared.workspace.IndexManager.referredIn(user).has(node)) return [];
    const uri = user.uri.toString();
    return user.references.flatMap((reference): Usage[] => {
      if (!('ref' in reference) || reference.ref !== node || reference.$refNode === undefined) return [];
      const how = gives(reference.$refNode.astNode) ? 'gives' : 'asks';
      return [{ location: { uri, range: reference.$refNode.range }, how }];
    });
  });
  return [...own, ...others];
}

/** Where the name of a declaration stands. */
export function nameRange(node: AstNode): Range | undefined {
  return GrammarUtils.findNodeForProperty(node.$cstNode, 'name')?.range;
}

/** Whether a place gives its subject a value: a condition becomes known, a state is made. */
function gives(node: AstNode): boolean {
  return ast.isObserve(node) || ast.isRead(node) || ast.isStateValue(node);
}

/** A rule of Quarrel's own is declared in no sheet: the waivers that speak of it. */
function waiversOf(
  leaf: LeafCstNode,
  document: SheetDocument,
  { shared }: LanguageServices,
  where: 'here' | 'everywhere',
): readonly Usage[] {
  const at = leaf.astNode;
  if (!ast.isWaive(at) || leaf.text !== at.rule?.$refText) return [];
  const sheets =
    where === 'here' ? [document] : shared.workspace.LangiumDocuments.all.filter(isSheetDocument).toArray();
  return sheets.flatMap((sheet) =>
    sheet.references.flatMap((reference): Usage[] => {
      const { $refNode, $refText } = reference;
      if ($refText !== leaf.text || $refNode === undefined || !ast.isWaive($refNode.astNode)) return [];
      return [{ location: { uri: sheet.uri.toString(), range: $refNode.range }, how: 'asks' }];
    }),
  );
}
