import { ast, isSheetDocument } from '@quarrel/language';
import type { AstNode, LangiumDocument } from 'langium';
import type { DocumentSymbol } from 'vscode-languageserver';
import { listed } from './symbols.js';

/** A sheet as an outline: its declarations, and procedures down to their steps. */
export function documentSymbols(document: LangiumDocument): DocumentSymbol[] {
  if (!isSheetDocument(document)) return [];
  const { declarations, strays } = document.parseResult.value;
  return [...declarations, ...strays.flatMap(({ flow, clause }) => [flow, clause])].flatMap(outlined);
}

function outlined(node: AstNode | undefined): DocumentSymbol[] {
  if (node === undefined) return [];
  const children = childrenOf(node).flatMap(outlined);
  const entry = listed(node);
  if (entry === undefined) return children;
  const { kind, name, detail, range, selection } = entry;
  return [
    {
      kind,
      name,
      ...(detail === undefined ? {} : { detail }),
      range,
      selectionRange: selection,
      ...(children.length === 0 ? {} : { children }),
    },
  ];
}

/** What belongs under a node. What stands behind a brace too many is listed on its own, as it lies outside of its procedure. */
function childrenOf(node: AstNode): readonly (AstNode | undefined)[] {
  if (ast.isObservation(node) || ast.isState(node)) return node.values;
  if (ast.isAct(node)) return node.needs.filter(({ name }) => name !== undefined);
  if (ast.isProcedure(node) || ast.isVariation(node)) return node.parts;
  if (ast.isStage(node) || ast.isRepeat(node) || ast.isWhenCase(node) || ast.isOtherwise(node))
    return node.body?.parts ?? [];
  if (ast.isBesideStep(node) || ast.isInsteadOfStep(node)) return node.body?.parts ?? [];
  if (ast.isWhen(node)) return [node.first, ...node.others];
  if (ast.isStep(node) || ast.isInStep(node)) {
    return node.clauses.filter(ast.isMeanwhile).flatMap(({ body }) => body?.parts ?? []);
  }
  return [];
}
