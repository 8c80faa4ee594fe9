import { isSheetDocument } from '@quarrel/language';
import { DocumentState } from 'langium';
import { type ClientCapabilities, CodeLensRefreshRequest, type Connection } from 'vscode-languageserver';
import type { ServerServices } from '../services.js';

/** How long to wait for more of the same, in milliseconds. */
const pause = 200;

/**
 * Asks the editor to ask again for what stands between and above the lines: when settings change, and when an edit of one
 * sheet changes what is known of another that is open. An edit of the sheet itself makes the editor ask on its own.
 */
export function refreshWhenKnown({ shared, quarrel }: ServerServices, connection: Connection): void {
  const { DocumentBuilder, LangiumDocuments, TextDocuments, ConfigurationProvider } = shared.workspace;
  let able: ClientCapabilities['workspace'];
  let shown: readonly unknown[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;

  const refresh = (): void => {
    timer = undefined;
    if (able?.inlayHint?.refreshSupport === true) void connection.languages.inlayHint.refresh();
    if (able?.codeLens?.refreshSupport === true) void connection.sendRequest(CodeLensRefreshRequest.type);
  };
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(refresh, pause);
  };
  /** What hints and lenses of the open sheets are made of, apart from where it stands; a run is the same while it holds. */
  const known = (): readonly unknown[] =>
    LangiumDocuments.all
      .filter(isSheetDocument)
      .filter(({ uri, state }) => TextDocuments.get(uri) !== undefined && state >= DocumentState.Linked)
      .flatMap((document) => quarrel.check.Checks.of(document).procedures)
      .flatMap(({ interpretation, findings }) => [interpretation, findings.map(({ severity }) => severity).join()])
      .toArray();

  shared.lsp.LanguageServer.onInitialize(({ capabilities }) => {
    able = capabilities.workspace;
  });
  DocumentBuilder.onBuildPhase(DocumentState.Validated, () => {
    const now = known();
    if (now.length !== shown.length || now.some((one, at) => one !== shown[at])) later();
    shown = now;
  });
  ConfigurationProvider.onConfigurationSectionUpdate(later);
}
