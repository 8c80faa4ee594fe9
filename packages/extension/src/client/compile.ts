import { type ChecklistAnswer, type ChecklistParams, methods, type ProcedureAddress } from '@quarrel/server/protocol';
import { commands, env, l10n, type QuickPickItem, UIKind, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { tellNoSheet } from './sheets.js';
import { askSituation } from './situation.js';
import { ask } from './start.js';

type Format = ChecklistParams['format'];

/** Compiles the checklist of a procedure and saves it where the user says. */
export async function compile(client: BaseLanguageClient, sheet: ProcedureAddress | undefined): Promise<void> {
  if (sheet === undefined) return tellNoSheet();
  if (!client.isRunning()) {
    void window.showWarningMessage(l10n.t('The server of Quarrel does not run.'));
    return;
  }
  const suppose = await askSituation(client, sheet);
  if (suppose === undefined) return;
  const format = await pickFormat();
  if (format === undefined) return;
  const params: ChecklistParams = { ...sheet, suppose, format };
  const answer = await ask<ChecklistAnswer>(client, methods.checklist, params);
  if (answer === undefined) return;
  if (answer.kind === 'nothing') {
    void window.showWarningMessage(answer.reason);
    return;
  }
  if (answer.draft && !(await agreesToDraft(answer.procedure))) return;
  const target = await askWhere(Uri.parse(sheet.uri), nameFor(answer.procedure, suppose), format);
  if (target === undefined) return;
  await writeWhole(target, answer.text);
  await offerToOpen(target, format);
}

async function pickFormat(): Promise<Format | undefined> {
  const items: readonly (QuickPickItem & { readonly format: Format })[] = [
    { format: 'html', label: l10n.t('A page to print'), description: 'HTML' },
    { format: 'md', label: l10n.t('A text to read'), description: 'Markdown' },
    { format: 'json', label: l10n.t('Data for programs'), description: 'JSON' },
  ];
  return (await window.showQuickPick(items, { title: l10n.t('What shall the checklist be?') }))?.format;
}

async function agreesToDraft(procedure: string): Promise<boolean> {
  const go = l10n.t('Save with DRAFT on it');
  const detail = l10n.t(
    'A procedure with errors becomes a checklist that says DRAFT on every page. Nobody should work from it.',
  );
  return (await window.showWarningMessage(l10n.t('{0} has errors.', procedure), { modal: true, detail }, go)) === go;
}

/** `stone-chip`, or `stone-chip-for-break-is-star`: checklists of different situations do not take each other's place. */
function nameFor(procedure: string, suppose: readonly string[]): string {
  if (suppose.length === 0) return procedure;
  const words = suppose.map((test) => test.replace(/ -(?=\d)/g, ' minus ').replace(/[^\p{L}\p{N}.]+/gu, '-'));
  return `${procedure}-for-${words.join('-and-')}`;
}

async function askWhere(sheet: Uri, name: string, format: Format): Promise<Uri | undefined> {
  const folder = sheet.scheme === 'file' ? Uri.joinPath(sheet, '..') : workspace.workspaceFolders?.[0]?.uri;
  return window.showSaveDialog({
    ...(folder === undefined ? {} : { defaultUri: Uri.joinPath(folder, `${name}.${format}`) }),
    title: l10n.t('Save the checklist'),
    filters: { [format.toUpperCase()]: [format] },
  });
}

/** Whole or not at all: a checklist that ends half-way could be worked from. */
async function writeWhole(target: Uri, text: string): Promise<void> {
  const part = target.with({ path: `${target.path}.part` });
  await workspace.fs.writeFile(part, new TextEncoder().encode(text));
  try {
    await workspace.fs.rename(part, target, { overwrite: true });
  } catch (error) {
    await workspace.fs.delete(part);
    throw error;
  }
}

async function offerToOpen(target: Uri, format: Format): Promise<void> {
  const open = l10n.t('Open');
  const name = target.path.replace(/^.*\//, '');
  if ((await window.showInformationMessage(l10n.t('The checklist is in {0}.', name), open)) !== open) return;
  const inBrowser = format === 'html' && env.uiKind === UIKind.Desktop && env.remoteName === undefined;
  if (inBrowser) await env.openExternal(target);
  else await commands.executeCommand('vscode.open', target);
}
