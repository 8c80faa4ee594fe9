import {
  type ExtensionContext,
  l10n,
  ProcessExecution,
  Task,
  type TaskDefinition,
  TaskGroup,
  TaskScope,
  tasks,
  type WorkspaceFolder,
  workspace,
} from 'vscode';
import { languageId } from './start.js';

/** What a task of ours says in `tasks.json`. */
interface Definition extends TaskDefinition {
  readonly command: 'check' | 'compile';
  readonly paths?: readonly string[];
  readonly options?: readonly string[];
}

/** Offers the command as tasks. It ships with the extension and runs on the Node that the editor brings. */
export function offerTasks(context: ExtensionContext): void {
  const command = context.asAbsolutePath('dist/quarrel.mjs');
  const offered = (folder: WorkspaceFolder): Task[] => [
    taskOf(command, { type: languageId, command: 'check' }, folder),
    taskOf(command, { type: languageId, command: 'compile', options: ['--out', 'out'] }, folder),
  ];
  context.subscriptions.push(
    tasks.registerTaskProvider(languageId, {
      provideTasks: () =>
        (workspace.workspaceFolders ?? []).filter(({ uri }) => uri.scheme === 'file').flatMap(offered),
      resolveTask: ({ definition, scope }) => {
        if (!isDefinition(definition)) return undefined;
        return taskOf(command, definition, typeof scope === 'object' ? scope : undefined);
      },
    }),
  );
}

/** The task that checks a folder. */
export async function checkTask(folder: WorkspaceFolder): Promise<Task | undefined> {
  const offered = await tasks.fetchTasks({ type: languageId });
  return offered.find(
    ({ definition, scope }) =>
      definition.command === 'check' && typeof scope === 'object' && scope.index === folder.index,
  );
}

function taskOf(command: string, definition: Definition, folder: WorkspaceFolder | undefined): Task {
  const { command: word, paths = ['.'], options = [] } = definition;
  const cwd = folder?.uri.fsPath;
  const execution = new ProcessExecution(process.execPath, [command, word, ...paths, ...options], {
    ...(cwd === undefined ? {} : { cwd }),
    env: { ELECTRON_RUN_AS_NODE: '1' },
  });
  const names = { check: l10n.t('Check'), compile: l10n.t('Compile checklists') };
  const matchers = word === 'check' ? '$quarrel' : [];
  const task = new Task(definition, folder ?? TaskScope.Workspace, names[word], languageId, execution, matchers);
  if (word === 'check') task.group = TaskGroup.Test;
  task.presentationOptions = { clear: true };
  return task;
}

function isDefinition(definition: TaskDefinition): definition is Definition {
  const { command, paths, options } = definition;
  const areWords = (value: unknown): boolean =>
    value === undefined || (Array.isArray(value) && value.every((one) => typeof one === 'string'));
  return (command === 'check' || command === 'compile') && areWords(paths) && areWords(options);
}
