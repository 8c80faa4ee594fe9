import { ast, declaredIn, isSheetDocument, stepsIn } from '@quarrel/language';
import { type AstNode, UriUtils } from 'langium';
import type { WorkspaceSymbol, WorkspaceSymbolParams } from 'vscode-languageserver';
import type { SharedServices } from '../services.js';
import { listed } from './symbols.js';

/** How many are sent; nobody reads more, and the next letter narrows them. */
const mostSymbols = 500;

/**
 * Declarations and steps of every sheet, also of those that ship, whose name or label has the letters asked for, in order; what
 * begins with them first, then what has them side by side.
 */
export function workspaceSymbols({ query }: WorkspaceSymbolParams, { workspace }: SharedServices): WorkspaceSymbol[] {
  const sought = query.toLowerCase().trim();
  const found: { readonly symbol: WorkspaceSymbol; readonly rank: number }[] = [];
  for (const document of workspace.LangiumDocuments.all.filter(isSheetDocument)) {
    const uri = document.uri.toString();
    for (const { node, around } of namedIn(document.parseResult.value)) {
      const entry = listed(node);
      if (entry === undefined) continue;
      const { name, detail, kind, selection } = entry;
      const rank = Math.min(rankOf(name, sought), detail === undefined ? unlike : rankOf(detail, sought));
      if (rank === unlike) continue;
      const containerName = around ?? UriUtils.basename(document.uri);
      // An editor filters once more by what it shows, so both names are in it.
      const shown = detail === undefined ? name : `${name} · ${detail}`;
      found.push({ rank, symbol: { name: shown, kind, containerName, location: { uri, range: selection } } });
    }
  }
  return found
    .sort((a, b) => a.rank - b.rank)
    .slice(0, mostSymbols)
    .map(({ symbol }) => symbol);
}

const unlike = Number.POSITIVE_INFINITY;

/** How much a text is like what is sought: the less, the more. */
function rankOf(text: string, sought: string): number {
  const at = text.toLowerCase().indexOf(sought);
  if (at >= 0) return Math.min(at, 1);
  return hasInOrder(text.toLowerCase(), sought) ? 2 : unlike;
}

function* namedIn(sheet: ast.Sheet): Generator<{ readonly node: AstNode; readonly around?: string | undefined }> {
  for (const { node } of declaredIn(sheet)) {
    yield { node };
    if (!ast.isProcedure(node) && !ast.isVariation(node)) continue;
    for (const step of stepsIn(node)) yield { node: step, around: node.name };
  }
}

/** Whether the letters stand in the text one behind another, with anything between them. */
function hasInOrder(text: string, letters: string): boolean {
  let at = 0;
  for (const letter of letters.replace(/\s/g, '')) {
    at = text.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
