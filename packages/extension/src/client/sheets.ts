import type { ProcedureAddress } from '@quarrel/server/protocol';
import { l10n, Uri, window } from 'vscode';
import { languageId } from './start.js';

/**
 * The procedure a command is about: what a lens, a link or the explorer gives with it, or else the one under the cursor. Nothing
 * where no sheet is open.
 */
export function sheetOf([sheet, procedure]: readonly unknown[]): ProcedureAddress | undefined {
  const given = sheet instanceof Uri ? sheet.toString() : sheet;
  const editor = activeSheet();
  if (typeof given !== 'string') {
    return editor && { uri: editor.document.uri.toString(), line: editor.selection.active.line };
  }
  if (typeof procedure === 'string') return { uri: given, procedure };
  const isActive = editor?.document.uri.toString() === given;
  return isActive ? { uri: given, line: editor.selection.active.line } : { uri: given };
}

/** The editor with a sheet that one writes in, or wrote in last. */
export function activeSheet(): typeof window.activeTextEditor {
  const { activeTextEditor, visibleTextEditors } = window;
  const all = activeTextEditor === undefined ? visibleTextEditors : [activeTextEditor, ...visibleTextEditors];
  return all.find(({ document }) => document.languageId === languageId);
}

/** Says that a command needs a sheet. */
export function tellNoSheet(): void {
  void window.showInformationMessage(l10n.t('Open a sheet with a procedure first. Sheets end in .quarrel.'));
}
