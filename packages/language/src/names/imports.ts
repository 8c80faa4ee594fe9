import type { LangiumDocument, LangiumSharedCoreServices } from 'langium';
import { URI } from 'langium';
import type * as ast from '../generated/ast.js';
import { resolveUse } from './addresses.js';

export type SheetDocument = LangiumDocument<ast.Sheet>;

/** Which sheets a sheet uses. */
export interface Imports {
  /** The sheets that `document` itself uses, in the order of its `use` lines; those that could not be read are left out. */
  usedBy(document: SheetDocument): readonly SheetDocument[];
  /** Says what `usedBy` answers for a document that is read outside of a workspace. */
  register(document: SheetDocument, used: readonly SheetDocument[]): void;
}

/** Sheets read together know each other by `register`; in a workspace they are looked up by their address. */
export function createImports(shared: LangiumSharedCoreServices): Imports {
  const registered = new WeakMap<SheetDocument, readonly SheetDocument[]>();
  const lookUp = (document: SheetDocument): readonly SheetDocument[] =>
    document.parseResult.value.uses.flatMap((use) => {
      if (use.path === undefined) return [];
      const resolved = resolveUse(use.path, document.uri.toString());
      if (resolved.kind === 'refused') return [];
      const found = shared.workspace.LangiumDocuments.getDocument(URI.parse(resolved.uri));
      return found !== undefined && isSheetDocument(found) ? [found] : [];
    });
  return {
    usedBy: (document) => registered.get(document) ?? lookUp(document),
    register: (document, used) => {
      registered.set(document, used);
    },
  };
}

/** Whether a document is one of ours. */
export function isSheetDocument(document: LangiumDocument): document is SheetDocument {
  return document.parseResult.value.$type === 'Sheet';
}
