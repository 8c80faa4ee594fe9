import { ast, declaredIn, isSheetDocument, stepsIn } from '@quarrel/language';
import { type AstNode, UriUtils } from 'langium';
import type { WorkspaceSymbol, WorkspaceSymbolParams } from 'vscode-languageserver';
import type { SharedServices } from '../services.js';
import { listed } from './symbols.js';

/** How many are sent; nobody reads more, and the next letter narrows them. */
const mostSymbols = 500;

/** Declarations and steps of every sheet, also of those that ship, whose name or label has the letters asked for, in order. */
export function workspaceSymbols({ query }: WorkspaceSymbolParams, { workspace }: SharedServices): WorkspaceSymbol[] {
  const sought = query.toLowerCase().replace(/\s+/g, '');
  const found: WorkspaceSymbol[] = [];
  for (const document of workspace.LangiumDocuments.all.filter(isSheetDocument)) {
    const uri = document.uri.toString();
    for (const { node, around } of namedIn(document.parseResult.value)) {
      const entry = listed(node);
      if (entry === undefined) continue;
      // An editor sorts by this text, so both names are in it.
      const name = entry.detail === undefined ? entry.name : `${entry.name} · ${entry.detail}`;
      if (!hasInOrder(name.toLowerCase(), sought)) continue;
      const containerName = around ?? UriUtils.basename(document.uri);
      found.push({ name, kind: entry.kind, containerName, location: { uri, range: entry.selection } });
      if (found.length === mostSymbols) return found;
    }
  }
  return found;
}

function* namedIn(sheet: ast.Sheet): Generator<{ readonly node: AstNode; readonly around?: string | undefined }> {
  for (const { node } of declaredIn(sheet)) {
    yield { node };
    if (!ast.isProcedure(node) && !ast.isVariation(node)) continue;
    for (const step of stepsIn(node)) yield { node: step, around: node.name };
  }
}

/** Whether the letters stand in the text one behind another, with anything between them. */
export function hasInOrder(text: string, letters: string): boolean {
  let at = 0;
  for (const letter of letters) {
    at = text.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
