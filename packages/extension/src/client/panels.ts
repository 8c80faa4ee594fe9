import type { ProcedureAddress } from '@quarrel/server/protocol';
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
import type { Checks } from './checks.js';
import { tellFailure } from './failure.js';
import { Panel, type Surroundings } from './panel.js';
import { sheetOf, tellNoSheet } from './sheets.js';

const views: readonly View[] = ['timeline', 'coverage', 'holds', 'checklist'];

/** What panels work with. */
export interface Parts {
  readonly client: BaseLanguageClient;
  readonly checks: Checks;
  readonly log: LogOutputChannel;
}

/** The panels beside the text, at most one for each picture. They come back after a reload, and follow text and cursor. */
export class Panels implements Disposable {
  readonly #open = new Map<View, Panel>();
  readonly #extension: Uri;
  readonly #surroundings: Surroundings;
  readonly #listeners: Disposable;

  constructor({ extensionUri }: ExtensionContext, { client, checks, log }: Parts) {
    this.#extension = extensionUri;
    this.#surroundings = {
      client,
      extension: extensionUri,
      reveal: (place) => reveal(place).catch((error: unknown) => tellFailure(error, log)),
      preview: ({ address, suppose }) => this.#show('checklist', { ...(address && { address }), suppose }),
      sheetInSight: () => sheetOf([]),
      cursorLine: (uri) => editorOf(uri)?.selection.active.line,
    };
    this.#listeners = Disposable.from(
      ...views.map((view) =>
        window.registerWebviewPanelSerializer(`quarrel.${view}`, {
          deserializeWebviewPanel: async (shown) => void this.#adopt(view, shown),
        }),
      ),
      checks.onChecked(({ uris }) => this.#refresh(({ uri }) => uri !== undefined && uris.includes(uri))),
      client.onDidChangeState(({ newState }) => {
        if (newState === State.Running) this.#refresh(() => true);
      }),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#follow(textEditor)),
    );
  }

  /** Shows a picture of a procedure. */
  open(view: View, address: ProcedureAddress | undefined): unknown {
    return address === undefined ? tellNoSheet() : this.#show(view, { address });
  }

  dispose(): void {
    this.#listeners.dispose();
    for (const { shown } of this.#open.values()) shown.dispose();
  }

  #show(view: View, state: Partial<PanelState>): Promise<void> {
    const before = this.#open.get(view);
    before?.shown.reveal(undefined, true);
    return (before ?? this.#adopt(view, beside(view))).show(state);
  }

  #adopt(view: View, shown: WebviewPanel): Panel {
    const media = Uri.joinPath(this.#extension, 'media');
    shown.webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(this.#extension, 'dist')] };
    shown.iconPath = { light: Uri.joinPath(media, 'sheet-light.svg'), dark: Uri.joinPath(media, 'sheet-dark.svg') };
    const panel = new Panel(view, shown, this.#surroundings);
    this.#open.get(view)?.shown.dispose();
    this.#open.set(view, panel);
    shown.onDidDispose(() => {
      if (this.#open.get(view) === panel) this.#open.delete(view);
    });
    return panel;
  }

  #refresh(isConcerned: (panel: Panel) => boolean): void {
    for (const panel of this.#open.values()) if (isConcerned(panel)) void panel.refresh();
  }

  #follow({ document, selection }: TextEditor): void {
    const uri = document.uri.toString();
    for (const panel of this.#open.values()) if (panel.uri === uri) panel.follow(selection.active.line);
  }
}

function beside(view: View): WebviewPanel {
  return window.createWebviewPanel(`quarrel.${view}`, view, { viewColumn: ViewColumn.Beside, preserveFocus: true });
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
