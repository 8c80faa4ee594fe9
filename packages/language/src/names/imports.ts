import type { Problem } from '@quarrel/model';
import { nearest } from '@quarrel/model';
import type { LangiumDocument, LangiumSharedCoreServices } from 'langium';
import { URI } from 'langium';
import type * as ast from '../generated/ast.js';
import { Places } from '../lower/places.js';
import { resolveUse } from './addresses.js';

export type SheetDocument = LangiumDocument<ast.Sheet>;

/** A `use` line that leads to a sheet. */
export interface Used {
  readonly use: ast.Use;
  readonly document: SheetDocument;
}

/** What became of a sheet's `use` lines, in their order. */
export interface Uses {
  readonly used: readonly Used[];
  /** One problem for every line that leads nowhere. */
  readonly problems: readonly Problem[];
}

/** Which sheets a sheet uses. */
export interface Imports {
  usesOf(document: SheetDocument): Uses;
  /** Says what `usesOf` answers for a document that is read outside of a workspace. */
  register(document: SheetDocument, uses: Uses): void;
}

/** The sheets around one. */
export interface Neighbours {
  /** The URI of the folder outside of which `use` may not lead; without it, it may lead anywhere. */
  readonly workspace?: string | undefined;
  /** The names of the sheets that ship. */
  readonly shipped: readonly string[];
  /** The sheet at an address, or why there is none. */
  find(uri: string): SheetDocument | 'missing' | 'unreadable';
  /** The addresses of the sheets that are there, to offer them. */
  known(): Iterable<string>;
}

/** Follows the `use` lines of a sheet. */
export function usesIn(document: SheetDocument, neighbours: Neighbours): Uses {
  const used: Used[] = [];
  const problems: Problem[] = [];
  for (const use of document.parseResult.value.uses) {
    if (use.path === undefined) continue;
    const found = follow(use.path, document.uri.toString(), neighbours);
    if (typeof found === 'string') problems.push(unknownSheet(use, document.uri.toString(), found, neighbours));
    else used.push({ use, document: found });
  }
  return { used, problems };
}

type Reason = Extract<Problem, { rule: 'unknown-sheet' }>['reason'];

function follow(path: string, from: string, { workspace, find }: Neighbours): SheetDocument | Reason {
  const resolved = resolveUse(path, from, workspace);
  if (resolved.kind === 'refused') return resolved.reason;
  const found = find(resolved.uri);
  return found === 'missing' && resolved.shipped ? 'not-shipped' : found;
}

function unknownSheet(use: ast.Use, uri: string, reason: Reason, { shipped, known }: Neighbours): Problem {
  const { path } = use;
  const names =
    reason === 'not-shipped'
      ? shipped.map((name) => `quarrel:${name}`)
      : [...known()].filter((one) => one !== uri).flatMap((one) => relative(one, uri) ?? []);
  const ending = path.endsWith('.quarrel') ? '' : '.quarrel';
  const candidates = nearest(
    path,
    names.map((name) => (name.endsWith(ending) ? name.slice(0, name.length - ending.length) : name)),
  );
  return { rule: 'unknown-sheet', path, reason, candidates, range: new Places(uri).ofProperty(use, 'path') };
}

/** The path of a sheet in the same folder as another. */
function relative(uri: string, from: string): string | undefined {
  const folder = from.slice(0, from.lastIndexOf('/') + 1);
  const rest = uri.startsWith(folder) ? uri.slice(folder.length) : '';
  return rest === '' ? undefined : decodeURIComponent(rest);
}

/** Sheets read together know each other by `register`; in a workspace they are looked up by their address. */
export function createImports(
  shared: LangiumSharedCoreServices,
  neighboursOf: (document: SheetDocument) => Omit<Neighbours, 'find'> = () => ({ shipped: [], known: () => [] }),
): Imports {
  const registered = new WeakMap<SheetDocument, Uses>();
  const find = (uri: string): SheetDocument | 'missing' => {
    const found = shared.workspace.LangiumDocuments.getDocument(URI.parse(uri));
    return found !== undefined && isSheetDocument(found) ? found : 'missing';
  };
  return {
    usesOf: (document) => registered.get(document) ?? usesIn(document, { ...neighboursOf(document), find }),
    register: (document, uses) => {
      registered.set(document, uses);
    },
  };
}

/** Whether a document is one of ours. */
export function isSheetDocument(document: LangiumDocument): document is SheetDocument {
  return document.parseResult.value.$type === 'Sheet';
}
