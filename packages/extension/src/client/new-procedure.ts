import { l10n, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { equipmentName, equipmentSheet, isName, procedureCalled, titleOf } from './template.js';

/** Writes a first procedure, the one `quarrel new` writes, under a name of one's own. Nothing is written over. */
export async function newProcedure(given: unknown): Promise<void> {
  const folder = given instanceof Uri ? given : await askFolder();
  if (folder === undefined) return;
  const name = await askName(folder);
  if (name === undefined) return;
  const title = await window.showInputBox({
    prompt: l10n.t('What do people call it? This is the title of the checklist.'),
    value: titleOf(name),
    ignoreFocusOut: true,
  });
  if (title === undefined) return;
  const sheet = await write(folder, name, title.trim() === '' ? titleOf(name) : title.trim());
  if (sheet !== undefined) await window.showTextDocument(sheet);
}

async function askFolder(): Promise<Uri | undefined> {
  const folders = workspace.workspaceFolders ?? [];
  if (folders.length === 1) return folders[0]?.uri;
  if (folders.length > 1) return (await window.showWorkspaceFolderPick())?.uri;
  const picked = await window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    openLabel: l10n.t('Put the procedure here'),
  });
  return picked?.[0];
}

async function askName(folder: Uri): Promise<string | undefined> {
  const name = await window.showInputBox({
    prompt: l10n.t('What is the procedure called? Its sheet gets the same name.'),
    placeHolder: 'surface-pit',
    value: 'surface-pit',
    ignoreFocusOut: true,
    validateInput: async (value) => {
      if (!isName(value)) {
        return l10n.t(
          'A name begins with a letter and has letters, digits and single hyphens inside: {0}.',
          'surface-pit',
        );
      }
      if (value === equipmentName) return l10n.t('This name is kept for the sheet of what you work with.');
      return (await isThere(sheetIn(folder, value))) ? l10n.t('There is already {0}.', `${value}.quarrel`) : undefined;
    },
  });
  return name;
}

/** Writes the procedure and the sheet of what it works with: both or none. */
async function write(folder: Uri, name: string, title: string): Promise<Uri | undefined> {
  const equipment = await equipmentFor(folder, name);
  const procedure = procedureCalled({ name, title, equipment: equipment.name });
  const sheet = sheetIn(folder, name);
  const edit = new WorkspaceEdit();
  edit.createFile(sheet, { contents: new TextEncoder().encode(procedure) });
  if (!equipment.isThere) {
    edit.createFile(sheetIn(folder, equipment.name), { contents: new TextEncoder().encode(equipmentSheet()) });
  }
  if (await workspace.applyEdit(edit)) return sheet;
  void window.showErrorMessage(
    l10n.t('Nothing was written: the folder cannot be written to, or one of the sheets is there already.'),
  );
  return undefined;
}

/** A folder that has another sheet of equipment keeps it: the new procedure then brings one under a name of its own. */
async function equipmentFor(folder: Uri, name: string): Promise<{ readonly name: string; readonly isThere: boolean }> {
  const usual = sheetIn(folder, equipmentName);
  if (!(await isThere(usual))) return { name: equipmentName, isThere: false };
  const text = new TextDecoder().decode(await workspace.fs.readFile(usual));
  if (text === equipmentSheet()) return { name: equipmentName, isThere: true };
  const own = `${name}-${equipmentName}`;
  return { name: own, isThere: false };
}

function sheetIn(folder: Uri, name: string): Uri {
  return Uri.joinPath(folder, `${name}.quarrel`);
}

async function isThere(uri: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
