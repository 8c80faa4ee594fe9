import type { Edit } from '@quarrel/checks';
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { rangeOf } from '../../check/places.js';

/** Edits of one or several sheets as the protocol writes them. */
export function workspaceEdit(edits: readonly Edit[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { range, text } of edits) {
    const those = changes[range.uri] ?? [];
    changes[range.uri] = [...those, { range: rangeOf(range), newText: text }];
  }
  return { changes };
}
