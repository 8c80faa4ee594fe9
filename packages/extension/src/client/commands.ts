import { commands, type Disposable, type LogOutputChannel, l10n, tasks, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { compile } from './compile.js';
import { tellFailure } from './failure.js';
import { showFindings, showRule } from './findings.js';
import { newProcedure } from './new-procedure.js';
import type { Panels } from './panels.js';
import { sheetOf } from './sheets.js';
import type { Status } from './status.js';
import { checkTask } from './tasks.js';

/** What commands work with. */
export interface Parts {
  readonly client: BaseLanguageClient;
  readonly log: LogOutputChannel;
  readonly panels: Panels;
  readonly status: Status;
}

/** The commands of the manifest. Links and lenses give the address of a sheet and the name of a procedure with them. */
export function registerCommands({ client, log, panels, status }: Parts): Disposable[] {
  const registered: Readonly<Record<string, (...given: readonly unknown[]) => unknown>> = {
    openTimeline: (...given) => panels.open('timeline', sheetOf(given)),
    openCoverage: (...given) => panels.open('coverage', sheetOf(given)),
    openHolds: (...given) => panels.open('holds', sheetOf(given)),
    openChecklist: (...given) => panels.open('checklist', sheetOf(given)),
    compile: (...given) => compile(client, sheetOf(given)),
    newProcedure: (given) => newProcedure(given),
    checkWorkspace: checkInTerminal,
    showFindings: (...given) => showFindings(given, status),
    showRule: (rule) => showRule(rule),
    restartServer: () => restart(client),
    showLog: () => log.show(),
    openWalkthrough: () => commands.executeCommand('workbench.action.openWalkthrough', 'quarrel.quarrel#start', false),
  };
  return Object.entries(registered).map(([name, run]) =>
    commands.registerCommand(`quarrel.${name}`, async (...given: readonly unknown[]) => {
      try {
        await run(...given);
      } catch (error) {
        await tellFailure(error, log);
      }
    }),
  );
}

async function restart(client: BaseLanguageClient): Promise<void> {
  if (client.isRunning()) await client.stop();
  await client.start();
}

async function checkInTerminal(): Promise<void> {
  const folders = workspace.workspaceFolders ?? [];
  const folder = folders.length > 1 ? await window.showWorkspaceFolderPick() : folders[0];
  if (folder === undefined) return;
  const task = await checkTask(folder);
  if (task === undefined) {
    void window.showInformationMessage(l10n.t('Only a folder on this machine can be checked in the terminal.'));
    return;
  }
  await tasks.executeTask(task);
}
