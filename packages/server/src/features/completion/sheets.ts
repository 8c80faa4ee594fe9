import { resolveUse, type SheetDocument, shippedName } from '@quarrel/language';
import { URI, UriUtils } from 'langium';
import { CompletionItemKind } from 'vscode-languageserver';
import type { LanguageServices } from '../../services.js';
import type { Offer } from './offer.js';

/** The sheets that a `use` can take, by path: the shop's own, the nearest first, then what ships. Not those it takes already. */
export function pathsFor(document: SheetDocument, written: string, services: LanguageServices): readonly Offer[] {
  const own = document.uri.toString();
  const { shipped, known, workspace } = services.shared.workspace.WorkspaceManager.neighboursOf(document);
  const resolved = (path: string): string | undefined => {
    const found = resolveUse(path, own, workspace);
    return found.kind === 'address' ? URI.parse(found.uri).toString() : undefined;
  };
  const paths = document.parseResult.value.uses.flatMap(({ path }) => path ?? []);
  const used = new Set(paths.filter((path) => path !== written).map(resolved));
  const sheets = [...known()]
    .filter((uri) => uri !== own && shippedName(uri) === undefined && uri.endsWith('.quarrel') && !used.has(uri))
    .flatMap((uri) => {
      const path = pathFrom(own, uri);
      return resolved(path) === uri ? [{ path, distance: path.split('/').length }] : [];
    })
    .sort((a, b) => a.distance - b.distance || (a.path < b.path ? -1 : 1));
  return [
    ...sheets.map(({ path, distance }) => ({
      label: path,
      kind: CompletionItemKind.File,
      rank: Math.min(distance, 8),
    })),
    ...shipped
      .map((name) => `quarrel:${name}`)
      .filter((path) => !used.has(resolved(path)))
      .map((path) => ({ label: path, kind: CompletionItemKind.Module, rank: 9, detail: 'comes with Quarrel' })),
  ];
}

function pathFrom(from: string, to: string): string {
  const path = UriUtils.relative(UriUtils.dirname(URI.parse(from)), URI.parse(to));
  return decodeURIComponent(path).replace(/\.quarrel$/, '');
}
