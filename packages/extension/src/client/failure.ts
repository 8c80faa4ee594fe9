import { type LogOutputChannel, l10n, window } from 'vscode';

/** A fault of ours or of the editor: told in words, with all that is known of it in the log. */
export async function tellFailure(error: unknown, log: LogOutputChannel): Promise<void> {
  log.error(error instanceof Error ? error : String(error));
  const showLog = l10n.t('Show log');
  const reason = error instanceof Error ? error.message : String(error);
  const answer = await window.showErrorMessage(l10n.t('Quarrel could not do this. {0}', reason), showLog);
  if (answer === showLog) log.show();
}
