import type { SheetDocument } from '@quarrel/language';
import type { LocationLink, Position } from 'vscode-languageserver';
import { marked, type World } from '../harness.js';

/** What an editor asks about a whole sheet. */
export function whole(document: SheetDocument) {
  const { textDocument } = document;
  const end = textDocument.positionAt(textDocument.getText().length);
  return { textDocument: { uri: textDocument.uri }, range: { start: { line: 0, character: 0 }, end } };
}

/** What an editor asks about a place. */
export function placed({ textDocument }: SheetDocument, position: Position) {
  return { textDocument: { uri: textDocument.uri }, position };
}

/** The language's providers; all that a test asks for are there. */
export function provider<K extends keyof World['services']['quarrel']['lsp']>(
  world: World,
  name: K,
): NonNullable<World['services']['quarrel']['lsp'][K]> {
  const found = world.services.quarrel.lsp[name];
  if (found === undefined) throw new Error(`there is no ${name}`);
  return found;
}

/** The hover at a place, as Markdown; an empty text where there is none. */
export async function hoverAt(world: World, document: SheetDocument, position: Position): Promise<string> {
  const hover = await provider(world, 'HoverProvider').getHoverContent(document, placed(document, position));
  const contents = hover?.contents;
  return typeof contents === 'object' && 'value' in contents ? contents.value : '';
}

/** The hover at the mark of a text, in a sheet of its own. */
export async function hoverIn(world: World, source: string): Promise<string> {
  const { text, cursor } = marked(source);
  return hoverAt(world, await world.open('hovered', text), cursor);
}

/** Where a link leads, as `sheet:line: the text there`. */
export function linked(world: World, { targetUri, targetSelectionRange }: LocationLink): string {
  return placeIn(world, targetUri, targetSelectionRange);
}

/** A place as `sheet:line: the text there`; lines count from 1. */
export function placeIn(world: World, uri: string, range: LocationLink['targetRange']): string {
  const name = uri.replace(/^.*\//, '').replace(/\.quarrel$/, '');
  const document = world.services.shared.workspace.LangiumDocuments.all.find((one) => one.uri.toString() === uri);
  return `${name}:${range.start.line + 1}: ${document?.textDocument.getText(range) ?? ''}`;
}
