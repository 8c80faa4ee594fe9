import type { Edit, Waiving } from '@quarrel/checks';
import type { SheetDocument } from '@quarrel/language';
import type { WorkspaceEdit } from 'vscode-languageserver';
import { rangeOf } from '../../check/places.js';
import type { EditSkills } from './code-actions.js';
import { workspaceEdit } from './edits.js';

/** Puts a waiver in; where the editor can, the cursor then stands where the reason is to be written. */
export function waiverEdit({ edits }: Waiving, document: SheetDocument, { snippets }: EditSkills): WorkspaceEdit {
  const [edit] = edits;
  const value = snippets && edit !== undefined && edits.length === 1 ? snippetOf(edit, document) : undefined;
  if (edit === undefined || value === undefined) return workspaceEdit(edits);
  const snippet = { kind: 'snippet', value } as const;
  return {
    documentChanges: [
      { textDocument: { uri: edit.range.uri, version: null }, edits: [{ range: rangeOf(edit.range), snippet }] },
    ],
  };
}

/**
 * The text with the cursor between the empty quotation marks. An editor sets every further line of a snippet in as far as the
 * line that it is put into; nothing where the text asks for less.
 */
function snippetOf({ range, text }: Edit, document: SheetDocument): string | undefined {
  const { line, column } = range.start;
  const before = document.textDocument.getText({ start: { line, character: 0 }, end: { line, character: column } });
  const indent = /^[ \t]*/.exec(before)?.[0] ?? '';
  const [first = '', ...others] = text.replace(/[\\$}]/g, '\\$&').split('\n');
  if (others.some((one) => !one.startsWith(indent))) return undefined;
  const lines = [first, ...others.map((one) => one.slice(indent.length))];
  return lines.join('\n').replace('""', '"$0"');
}
