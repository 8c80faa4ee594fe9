import { isSheetDocument } from '@quarrel/language';
import { AstUtils, type CstNode, GrammarUtils, type LangiumDocument } from 'langium';
import type { DocumentLink } from 'vscode-languageserver';
import type { LanguageServices } from '../services.js';

/** What leads out of a sheet: the paths of its `use` lines, and the addresses in its sources. */
export function documentLinks(document: LangiumDocument, { names }: LanguageServices): DocumentLink[] {
  if (!isSheetDocument(document)) return [];
  const links: DocumentLink[] = [];
  for (const { use, document: used } of names.Imports.usesOf(document).used) {
    const piece = GrammarUtils.findNodeForProperty(use.$cstNode, 'path');
    if (piece !== undefined) links.push({ range: piece.range, target: used.uri.toString(), tooltip: 'Open the sheet' });
  }
  for (const node of AstUtils.streamAst(document.parseResult.value)) {
    if (!('sources' in node)) continue;
    for (const piece of GrammarUtils.findNodesForProperty(node.$cstNode, 'sources')) links.push(...addressesIn(piece));
  }
  return links;
}

/** A full stop or a bracket behind an address is not part of it. */
const address = /https?:\/\/[^\s"<>]*[^\s"<>.,;:!?)\]]/g;

function addressesIn({ text, range: { start } }: CstNode): readonly DocumentLink[] {
  return [...text.matchAll(address)].map(({ 0: target, index }) => ({
    range: {
      start: { line: start.line, character: start.character + index },
      end: { line: start.line, character: start.character + index + target.length },
    },
    target,
  }));
}
