import { isSheetDocument, type SheetDocument, shippedName, whatIs } from '@quarrel/language';
import { type AstNode, AstUtils, CstUtils, GrammarUtils, type LangiumDocument } from 'langium';
import {
  LSPErrorCodes,
  type Position,
  type Range,
  type RenameParams,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { LanguageServices } from '../../services.js';
import { declarationsAt } from '../cursor.js';
import { clashOf } from './clash.js';
import { misreadIn, spellingFault } from './spelling.js';

/** Something that can be given another name. */
export interface Renamable {
  readonly node: AstNode & { readonly name: string };
  readonly document: SheetDocument;
}

/** Where the name at a place stands; nothing where there is no name. Refused, with the reason, for what cannot be renamed. */
export function prepareRename(
  document: LangiumDocument,
  { position }: { readonly position: Position },
  services: LanguageServices,
): Range | undefined {
  return isSheetDocument(document) ? targetAt(document, position, services)?.range : undefined;
}

/** Another name for what is at a place, in every sheet that speaks of it. Labels and texts stay as they are. */
export function rename(
  document: LangiumDocument,
  { position, newName }: RenameParams,
  services: LanguageServices,
): WorkspaceEdit | undefined {
  const target = isSheetDocument(document) ? targetAt(document, position, services)?.target : undefined;
  if (target === undefined) return undefined;
  if (newName === target.node.name) return { changes: {} };
  const fault = spellingFault(newName, services) ?? clashOf(target, newName, services);
  if (fault !== undefined) throw refusal(fault);
  const changes = editsFor(target, newName, services);
  const misread = misreadIn(changes, newName, services);
  if (misread !== undefined) throw refusal(misread);
  return { changes: Object.fromEntries(changes) };
}

function targetAt(
  document: SheetDocument,
  position: Position,
  services: LanguageServices,
): { readonly target: Renamable; readonly range: Range } | undefined {
  const found = declarationsAt(document, position, services);
  const node = found?.declarations[0];
  if (found === undefined || node === undefined || !isNamed(node)) return undefined;
  const owner = AstUtils.getDocument(node);
  if (!isSheetDocument(owner)) return undefined;
  if (shippedName(owner.uri.toString()) !== undefined) {
    throw refusal(`\`${node.name}\` comes with Quarrel and keeps its name: declare your own ${whatIs(node)} instead.`);
  }
  return { target: { node, document: owner }, range: found.leaf.range };
}

function isNamed(node: AstNode): node is AstNode & { readonly name: string } {
  return 'name' in node && typeof node.name === 'string';
}

/** The edits by the address of the sheet: the declaration itself and everything that refers to it. */
function editsFor(
  { node, document }: Renamable,
  newName: string,
  { shared, workspace }: LanguageServices,
): Map<string, TextEdit[]> {
  const changes = new Map<string, TextEdit[]>();
  const add = (uri: string, range: Range): void => {
    const edits = changes.get(uri) ?? [];
    edits.push({ range, newText: newName });
    changes.set(uri, edits);
  };
  const name = GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
  if (name !== undefined) add(document.uri.toString(), CstUtils.toDocumentSegment(name).range);
  const path = workspace.AstNodeLocator.getAstNodePath(node);
  for (const { sourceUri, segment } of shared.workspace.IndexManager.findAllReferences(node, path)) {
    add(sourceUri.toString(), segment.range);
  }
  return changes;
}

function refusal(reason: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, reason);
}
