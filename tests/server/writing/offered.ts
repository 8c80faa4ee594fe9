import type { SheetDocument } from '@quarrel/language';
import type { CompletionItem, Position } from 'vscode-languageserver';
import { complete } from '../../../packages/server/src/features/completion/completion.js';
import { marked, type World } from '../harness.js';

/** What is offered at a place of a sheet, in order. */
export function itemsAt(world: World, document: SheetDocument, position: Position): readonly CompletionItem[] {
  const { items } = complete(
    document,
    { textDocument: { uri: document.uri.toString() }, position },
    world.services.quarrel,
  );
  return [...items].sort((a, b) => ((a.sortText ?? a.label) < (b.sortText ?? b.label) ? -1 : 1));
}

export function labelsOf(items: readonly CompletionItem[]): readonly string[] {
  return items.map(({ label }) => label);
}

let sheets = 0;

/** What is offered at the mark `<|>` of a text, in a sheet of its own. */
export async function offered(world: World, source: string): Promise<readonly CompletionItem[]> {
  const { text, cursor } = marked(source);
  sheets += 1;
  return itemsAt(world, await world.open(`asked-${sheets}`, text), cursor);
}
