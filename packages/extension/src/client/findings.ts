import {
  commands,
  type Diagnostic,
  DiagnosticSeverity,
  type DocumentSymbol,
  l10n,
  languages,
  type Range,
  Selection,
  Uri,
  window,
} from 'vscode';
import { languageId } from './start.js';
import type { Status } from './status.js';

/** Shows the findings; of one procedure where a lens gives it, with the cursor at its first. */
export async function showFindings([sheet, procedure]: readonly unknown[], status: Status): Promise<void> {
  if (typeof sheet === 'string' && typeof procedure === 'string') await goToFirst(Uri.parse(sheet), procedure);
  const { errors = 0, warnings = 0, infos = 0 } = status.summary() ?? {};
  await commands.executeCommand('workbench.actions.view.problems');
  if (status.summary() !== undefined && errors + warnings + infos === 0) {
    void window.showInformationMessage(
      l10n.t('Quarrel found nothing. A procedure without findings can still be wrong.'),
    );
  }
}

async function goToFirst(uri: Uri, procedure: string): Promise<void> {
  const within = await rangeOf(uri, procedure);
  const [first] = findingsIn(uri)
    .filter(({ range }) => within?.intersection(range) !== undefined)
    .sort((a, b) => a.severity - b.severity || a.range.start.compareTo(b.range.start));
  const at = first?.range ?? within;
  if (at === undefined) return;
  await window.showTextDocument(uri, { selection: new Selection(at.start, at.start) });
}

async function rangeOf(uri: Uri, procedure: string): Promise<Range | undefined> {
  const symbols = await commands.executeCommand<readonly DocumentSymbol[] | undefined>(
    'vscode.executeDocumentSymbolProvider',
    uri,
  );
  return symbols?.find(({ name }) => name === procedure)?.range;
}

/** What counts as a finding: what is waived or merely faded does not. */
function findingsIn(uri: Uri): readonly Diagnostic[] {
  return languages
    .getDiagnostics(uri)
    .filter(({ source, severity }) => source === languageId && severity !== DiagnosticSeverity.Hint);
}

/** Opens the page of a rule: the given one, or one that is picked among those that were found. */
export async function showRule(given: unknown): Promise<void> {
  const page = typeof given === 'string' ? given : await pickRule();
  if (page !== undefined) await commands.executeCommand('vscode.open', Uri.parse(`quarrel:/rules/${page}.md`));
}

async function pickRule(): Promise<string | undefined> {
  const editor = window.activeTextEditor;
  const here =
    editor === undefined
      ? []
      : findingsIn(editor.document.uri).filter(({ range }) => range.contains(editor.selection.active));
  const all = languages.getDiagnostics().flatMap(([uri]) => findingsIn(uri));
  const rules = [...new Set([...here, ...all].flatMap(ruleOf))];
  const items = [
    ...rules.map((rule) => ({ label: rule, page: rule })),
    { label: l10n.t('All rules'), description: l10n.t('the list of all pages'), page: 'README' },
  ];
  return (await window.showQuickPick(items, { placeHolder: l10n.t('Which rule?') }))?.page;
}

/** The name of a rule that has a page. */
function ruleOf({ code }: Diagnostic): readonly string[] {
  return typeof code === 'object' ? [String(code.value)] : [];
}
