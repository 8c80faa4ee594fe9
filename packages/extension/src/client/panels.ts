import type { ProcedureAddress } from '@quarrel/server/protocol';
import { type Disposable, type ExtensionContext, env, l10n, ViewColumn, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { pageOf, type View } from './panel-page.js';
import { tellNoSheet } from './sheets.js';

/** The panels beside the text. */
export interface Panels extends Disposable {
  open(view: View, sheet: ProcedureAddress | undefined): void;
}

export function hostPanels(context: ExtensionContext, _client: BaseLanguageClient): Panels {
  return {
    open: (view, sheet) => {
      if (sheet === undefined) return tellNoSheet();
      const panel = window.createWebviewPanel(`quarrel.${view}`, l10n.t('Timeline'), ViewColumn.Beside, {
        enableScripts: true,
      });
      panel.webview.html = pageOf(panel.webview, context.extensionUri, { view, title: view, language: env.language });
    },
    dispose: () => undefined,
  };
}
