import { type CheckedParams, methods, type ProcedureAddress } from '@quarrel/server/protocol';
import {
  Disposable,
  type ExtensionContext,
  type LogOutputChannel,
  Position,
  Selection,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import type { FromPanel, PanelState, View } from '../panels/messages.js';
import { tellFailure } from './failure.js';
import { Panel, type Surroundings } from './panel.js';
import { tellNoSheet } from './sheets.js';

/** The panels beside the text, at most one for each picture. */
export interface Panels extends Disposable {
  open(view: View, sheet: ProcedureAddress | undefined): unknown;
}

const views: readonly View[] = ['timeline', 'coverage', 'checklist'];

/** Opens panels, brings them back after a reload, and keeps them up to date with text and cursor. */
export function hostPanels(
  { extensionUri }: ExtensionContext,
  client: BaseLanguageClient,
  log: LogOutputChannel,
): Panels {
  const open = new Map<View, Panel>();
  const dist = Uri.joinPath(extensionUri, 'dist');
  const options = { enableScripts: true, localResourceRoots: [dist] };

  const adopt = (view: View, shown: WebviewPanel): Panel => {
    shown.webview.options = options;
    shown.iconPath = {
      light: Uri.joinPath(extensionUri, 'media', 'sheet-light.svg'),
      dark: Uri.joinPath(extensionUri, 'media', 'sheet-dark.svg'),
    };
    const panel = new Panel(view, shown, surroundings);
    open.get(view)?.shown.dispose();
    open.set(view, panel);
    shown.onDidDispose(() => {
      if (open.get(view) === panel) open.delete(view);
    });
    return panel;
  };
  const show = (view: View, state: Partial<PanelState>): Promise<void> => {
    const before = open.get(view);
    before?.shown.reveal(undefined, true);
    const column = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    const panel = before ?? adopt(view, window.createWebviewPanel(`quarrel.${view}`, view, column, options));
    return panel.show(state);
  };
  const surroundings: Surroundings = {
    client,
    extension: extensionUri,
    reveal: (place) => reveal(place).catch((error: unknown) => tellFailure(error, log)),
    preview: ({ address, suppose }) => show('checklist', address === undefined ? { suppose } : { address, suppose }),
    cursorLine: (uri) => editorOf(uri)?.selection.active.line,
  };
  const refresh = (isConcerned: (panel: Panel) => boolean): void => {
    for (const panel of open.values()) if (isConcerned(panel)) void panel.refresh();
  };

  const parts = Disposable.from(
    ...views.map((view) =>
      window.registerWebviewPanelSerializer(`quarrel.${view}`, {
        deserializeWebviewPanel: async (shown) => void adopt(view, shown),
      }),
    ),
    client.onNotification(methods.checked, ({ uris }: CheckedParams) => {
      refresh(({ uri }) => uri !== undefined && uris.includes(uri));
    }),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) refresh(() => true);
    }),
    window.onDidChangeTextEditorSelection(({ textEditor }) => {
      const uri = textEditor.document.uri.toString();
      for (const panel of open.values()) if (panel.uri === uri) panel.follow(textEditor.selection.active.line);
    }),
  );
  return {
    open: (view, address) => (address === undefined ? tellNoSheet() : show(view, { address })),
    dispose: () => {
      parts.dispose();
      for (const { shown } of open.values()) shown.dispose();
    },
  };
}

function editorOf(uri: string): TextEditor | undefined {
  return window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri);
}

/** Goes to a place in the text, in the column where its sheet is open already. */
async function reveal({ range }: Extract<FromPanel, { readonly kind: 'reveal' }>): Promise<void> {
  const uri = Uri.parse(range.uri);
  const at = new Position(range.start.line, range.start.column);
  const viewColumn = editorOf(uri.toString())?.viewColumn ?? ViewColumn.One;
  const editor = await window.showTextDocument(uri, { viewColumn });
  editor.selection = new Selection(at, at);
  editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
}
