import type { Summary } from '@quarrel/server/protocol';
import { type Disposable, l10n, MarkdownString, StatusBarAlignment, ThemeColor, window } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import type { Checks } from './checks.js';
import { countOf } from './words.js';

/** The status item, and the counts it shows. */
export interface Status extends Disposable {
  /** The counts of the last check; nothing before the first. */
  summary(): Summary | undefined;
}

/** Shows whether sheets are being checked and what came of it. A click shows the findings. */
export function showStatus(client: BaseLanguageClient, checks: Checks): Status {
  const item = window.createStatusBarItem('quarrel.status', StatusBarAlignment.Left, 10);
  item.name = 'Quarrel';
  item.command = 'quarrel.showFindings';
  let summary: Summary | undefined;
  const show = (icon: string, words: string, tooltip: string): void => {
    item.text = `$(${icon}) ${words}`;
    item.tooltip = tooltipOf(tooltip);
    item.accessibilityInformation = { label: `Quarrel: ${words} – ${tooltip}` };
    item.backgroundColor = undefined;
  };
  const checking = (): void => show('sync~spin', l10n.t('Checking…'), l10n.t('Quarrel is checking the sheets.'));
  const checked = (counts: Summary): void => {
    summary = counts;
    show(iconOf(counts), shortly(counts), atLength(counts));
  };
  const stopped = (): void => {
    show(
      'circle-slash',
      l10n.t('Quarrel stopped'),
      l10n.t('The server of Quarrel does not run. Restart it, or look at the log.'),
    );
    item.backgroundColor = new ThemeColor('statusBarItem.warningBackground');
  };
  const parts = [
    item,
    checks.onChecking(checking),
    checks.onChecked(({ summary: counts }) => checked(counts)),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Stopped || newState === State.StartFailed) stopped();
      else if (newState === State.Starting) checking();
    }),
  ];
  checking();
  item.show();
  return {
    summary: () => summary,
    dispose: () => {
      for (const part of parts) part.dispose();
    },
  };
}

function iconOf({ errors, warnings }: Summary): string {
  if (errors > 0) return 'error';
  return warnings > 0 ? 'warning' : 'check';
}

function shortly({ errors, warnings, infos }: Summary): string {
  const parts = [
    ...(errors > 0 ? [countOf.errors(errors)] : []),
    ...(warnings > 0 ? [countOf.warnings(warnings)] : []),
    ...(infos > 0 && errors + warnings === 0 ? [countOf.infos(infos)] : []),
  ];
  return parts.length === 0 ? l10n.t('No findings') : parts.join(', ');
}

function atLength({ procedures, sheets, errors, warnings, infos }: Summary): string {
  const where = l10n.t('Checked: {0} in {1}.', countOf.procedures(procedures), countOf.sheets(sheets));
  return `${where} ${[countOf.errors(errors), countOf.warnings(warnings), countOf.infos(infos)].join(', ')}.`;
}

/** With links to what one may want next. */
function tooltipOf(text: string): MarkdownString {
  const links = [
    `[${l10n.t('Show findings')}](command:quarrel.showFindings)`,
    `[${l10n.t('Restart server')}](command:quarrel.restartServer)`,
    `[${l10n.t('Show log')}](command:quarrel.showLog)`,
  ];
  const tooltip = new MarkdownString(`${text}\n\n${links.join(' · ')}`, true);
  tooltip.isTrusted = { enabledCommands: ['quarrel.showFindings', 'quarrel.restartServer', 'quarrel.showLog'] };
  return tooltip;
}
