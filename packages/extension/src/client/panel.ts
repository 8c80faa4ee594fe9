import {
  type ChecklistAnswer,
  type CoverageAnswer,
  type HoldsAnswer,
  methods,
  type ProcedureAddress,
  type TimelineAnswer,
} from '@quarrel/server/protocol';
import { env, l10n, Uri, type WebviewPanel } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { FromPanel, PanelAnswer, PanelState, ToPanel, View } from '../panels/messages.js';
import { pageOf } from './panel-page.js';
import { ask } from './start.js';

/** What a panel asks of its surroundings. */
export interface Surroundings {
  readonly client: BaseLanguageClient;
  readonly extension: Uri;
  /** Shows a place in the text. */
  reveal(message: Extract<FromPanel, { readonly kind: 'reveal' }>): unknown;
  /** Shows the checklist of what is supposed, in the preview. */
  preview(state: PanelState): unknown;
  /** The procedure in the sheet that one writes in, or wrote in last. */
  sheetInSight(): ProcedureAddress | undefined;
  /** The line of the cursor in a sheet that is in sight. */
  cursorLine(uri: string): number | undefined;
}

const nothingAsked: PanelState = { picked: {}, question: { fixed: {} }, suppose: [], scroll: 0 };

/** One picture beside the text: asks the server for what its page shows. */
export class Panel {
  readonly view: View;
  readonly shown: WebviewPanel;
  readonly #surroundings: Surroundings;
  /** The page keeps it over a reload, and gives it back as soon as it listens. */
  #state: PanelState = nothingAsked;
  /** Answers that a newer question has overtaken are dropped. */
  #questions = 0;

  constructor(view: View, shown: WebviewPanel, surroundings: Surroundings) {
    this.view = view;
    this.shown = shown;
    this.#surroundings = surroundings;
    const title = titles[view]();
    shown.title = title;
    shown.webview.onDidReceiveMessage((message: FromPanel) => this.#hear(message));
    shown.webview.html = pageOf({
      view,
      title,
      language: env.language,
      source: shown.webview.cspSource,
      file: (name) => shown.webview.asWebviewUri(Uri.joinPath(surroundings.extension, 'dist', name)).toString(),
    });
  }

  get uri(): string | undefined {
    return this.#state.address?.uri;
  }

  /** Shows a procedure, or another situation of it. */
  show(state: Partial<PanelState>): Promise<void> {
    const isOther = state.address !== undefined && state.address.uri !== this.uri;
    this.#state = { ...(isOther ? nothingAsked : this.#state), ...state };
    return this.refresh();
  }

  /** Asks the server again; the picture before stays until the answer is there. */
  async refresh(): Promise<void> {
    const { address } = this.#state;
    if (address === undefined) return;
    this.#questions += 1;
    const question = this.#questions;
    this.#post({ kind: 'busy' });
    const answer = await this.#answer(address);
    if (question !== this.#questions) return;
    const name = procedureOf(answer);
    if (name !== undefined) {
      this.#state = { ...this.#state, address: { ...address, procedure: name } };
      this.shown.title = `${titles[this.view]()}: ${name}`;
    }
    this.#post({ kind: 'show', address: this.#state.address ?? address, suppose: this.#state.suppose, answer });
    this.follow(this.#surroundings.cursorLine(address.uri));
  }

  /** Says to the page where the cursor is. */
  follow(line: number | undefined): void {
    if (this.uri !== undefined && line !== undefined) this.#post({ kind: 'cursor', uri: this.uri, line });
  }

  #post(message: ToPanel): void {
    void this.shown.webview.postMessage(message);
  }

  #hear(message: FromPanel): unknown {
    switch (message.kind) {
      case 'ready':
        return this.show(this.#state.address === undefined ? this.#begun(message.state) : {});
      case 'pick':
        return this.show({ picked: message.picked });
      case 'ask':
        return this.show({ question: message.question });
      case 'look':
        return this.show({ look: message.look });
      case 'reveal':
        return this.#surroundings.reveal(message);
      case 'checklist':
        if (this.view === 'checklist') return this.show({ suppose: message.suppose });
        return this.#surroundings.preview({ ...this.#state, suppose: message.suppose });
    }
  }

  /** A page that comes back without knowing of what it was takes the sheet in sight. */
  #begun(state: PanelState): PanelState {
    const address = state.address ?? this.#surroundings.sheetInSight();
    return { ...state, ...(address && { address }) };
  }

  async #answer(address: ProcedureAddress): Promise<PanelAnswer> {
    try {
      const answer = await this.#ask(address);
      if (answer === undefined) return { kind: 'nothing', reason: l10n.t('The server of Quarrel does not run.') };
      const line = answer.kind === 'nothing' ? this.#surroundings.cursorLine(address.uri) : undefined;
      if (line === undefined) return answer;
      // The procedure may have been given another name: it is the one that is being written in.
      const there = await this.#ask({ uri: address.uri, line });
      return there === undefined || there.kind === 'nothing' ? answer : there;
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      return { kind: 'nothing', reason: l10n.t('Quarrel could not do this. {0}', reason) };
    }
  }

  #ask(address: ProcedureAddress): Promise<PanelAnswer | undefined> {
    const { picked, question, look, suppose } = this.#state;
    const { client } = this.#surroundings;
    switch (this.view) {
      case 'timeline':
        return ask<TimelineAnswer>(client, methods.timeline, { ...address, picked });
      case 'coverage':
        return ask<CoverageAnswer>(client, methods.coverage, { ...address, question });
      case 'holds':
        return ask<HoldsAnswer>(client, methods.holds, { ...address, question: look ?? {} });
      case 'checklist':
        return ask<ChecklistAnswer>(client, methods.checklist, { ...address, suppose, format: 'html' });
    }
  }
}

const titles: Readonly<Record<View, () => string>> = {
  timeline: () => l10n.t('Timeline'),
  coverage: () => l10n.t('Coverage'),
  holds: () => l10n.t('Holds against temperature'),
  checklist: () => l10n.t('Checklist'),
};

/** The name of the procedure an answer is about. */
function procedureOf(answer: PanelAnswer): string | undefined {
  switch (answer.kind) {
    case 'timeline':
      return answer.timeline.procedure.name;
    case 'coverage':
      return answer.coverage.procedure.name;
    case 'holds':
      return answer.holds.procedure.name;
    case 'checklist':
      return answer.procedure;
    case 'nothing':
      return undefined;
  }
}
