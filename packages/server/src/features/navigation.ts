import { ast, isSheetDocument } from '@quarrel/language';
import { AstUtils, type LangiumDocument } from 'langium';
import {
  type DefinitionParams,
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
  type Location,
  type LocationLink,
  type Range,
  type ReferenceParams,
} from 'vscode-languageserver';
import { pageUri } from '../rule-pages.js';
import type { LanguageServices } from '../services.js';
import { declarationsAt } from './cursor.js';
import { nameRange, type Usage, usagesAt } from './usages.js';

const beginning: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Where the name at the cursor is declared; for the path of a `use` the sheet, for a rule of Quarrel's own its page. */
export function definition(
  document: LangiumDocument,
  { position }: DefinitionParams,
  services: LanguageServices,
): LocationLink[] {
  if (!isSheetDocument(document)) return [];
  const found = declarationsAt(document, position, services);
  if (found === undefined) return [];
  const { leaf, declarations } = found;
  const to = (targetUri: string, targetRange: Range, targetSelectionRange: Range): LocationLink => ({
    originSelectionRange: leaf.range,
    targetUri,
    targetRange,
    targetSelectionRange,
  });
  const at = leaf.astNode;
  if (declarations.length === 0 && ast.isUse(at)) {
    const used = services.names.Imports.usesOf(document).used.find(({ use }) => use === at)?.document;
    return used === undefined ? [] : [to(used.uri.toString(), beginning, beginning)];
  }
  if (declarations.length === 0 && ast.isWaive(at) && leaf.text === at.rule?.$refText) {
    const page = pageUri(leaf.text);
    return page === undefined ? [] : [to(page, beginning, beginning)];
  }
  return declarations.flatMap((node) => {
    const uri = AstUtils.findRootNode(node).$document?.uri.toString();
    const name = nameRange(node);
    const whole = node.$cstNode?.range;
    return uri === undefined || name === undefined || whole === undefined ? [] : [to(uri, whole, name)];
  });
}

/** Every place of every sheet that speaks of what the cursor is on. */
export function references(
  document: LangiumDocument,
  { position, context }: ReferenceParams,
  services: LanguageServices,
): Location[] {
  if (!isSheetDocument(document)) return [];
  return usagesAt(document, position, services, 'everywhere')
    .filter(({ how }) => context.includeDeclaration || how !== 'declares')
    .map(({ location }) => location);
}

/** The same in this sheet, told apart by whether a place gives a value or asks for it. */
export function documentHighlights(
  document: LangiumDocument,
  { position }: DocumentHighlightParams,
  services: LanguageServices,
): DocumentHighlight[] {
  if (!isSheetDocument(document)) return [];
  return usagesAt(document, position, services, 'here').map(({ location, how }) => ({
    range: location.range,
    kind: highlightKinds[how],
  }));
}

const highlightKinds: Readonly<Record<Usage['how'], DocumentHighlightKind>> = {
  declares: DocumentHighlightKind.Write,
  gives: DocumentHighlightKind.Write,
  asks: DocumentHighlightKind.Read,
};
