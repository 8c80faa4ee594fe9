import type { FromPanel, PanelState, ToPanel } from './messages.js';

/** What the editor gives a page to speak to it with. */
interface EditorApi {
  postMessage(message: FromPanel): void;
  getState(): PanelState | undefined;
  setState(state: PanelState): void;
}

declare function acquireVsCodeApi(): EditorApi;

/** The extension host as a page sees it: told things, telling things, and keeping the page's state over a reload. */
export interface Host {
  tell(message: FromPanel): void;
  readonly state: PanelState;
  keep(part: Partial<PanelState>): void;
  listen(hear: (message: ToPanel) => void): void;
}

const blank: PanelState = { picked: {}, question: { fixed: {} }, suppose: [], scroll: 0 };

/** Can be called once: the editor gives its part away only once. */
export function connectHost(): Host {
  const api = acquireVsCodeApi();
  let state: PanelState = { ...blank, ...api.getState() };
  return {
    tell: (message) => api.postMessage(message),
    get state() {
      return state;
    },
    keep: (part) => {
      state = { ...state, ...part };
      api.setState(state);
    },
    listen: (hear) => window.addEventListener('message', ({ data }) => isMessage(data) && hear(data)),
  };
}

function isMessage(data: unknown): data is ToPanel {
  return typeof data === 'object' && data !== null && 'kind' in data && /^(show|busy|cursor)$/.test(`${data.kind}`);
}
