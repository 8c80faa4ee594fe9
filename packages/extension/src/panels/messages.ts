// What the extension host and the page of a panel say to each other, as plain data. Which of the four views a page shows stands
// in `<body data-view>`, the language in `<html lang>`.

import type { CoverageQuestion, HoldsQuestion, Picked, SourceRange } from '@quarrel/pictures';
import type {
  ChecklistAnswer,
  CoverageAnswer,
  HoldsAnswer,
  ProcedureAddress,
  TimelineAnswer,
} from '@quarrel/server/protocol';

export type View = 'timeline' | 'coverage' | 'holds' | 'checklist';

export type ToPanel =
  /** A new answer of the server. The page keeps in its state what was asked: the address, and what a checklist supposes. */
  | {
      readonly kind: 'show';
      readonly address: ProcedureAddress;
      readonly suppose: readonly string[];
      readonly answer: PanelAnswer;
    }
  /** An answer is on its way. */
  | { readonly kind: 'busy' }
  /** Where the cursor stands: the sheet and the line, from 0. The page finds the step. */
  | { readonly kind: 'cursor'; readonly uri: string; readonly line: number };

export type PanelAnswer = TimelineAnswer | CoverageAnswer | HoldsAnswer | ChecklistAnswer;

export type FromPanel =
  /** The page listens. It has a state where it was open before: ask the server for that again. */
  | { readonly kind: 'ready'; readonly state: PanelState }
  /** The timeline is to be of this situation. */
  | { readonly kind: 'pick'; readonly picked: Picked }
  /** The coverage is to answer this. */
  | { readonly kind: 'ask'; readonly question: CoverageQuestion }
  /** The holds are to be those of this. */
  | { readonly kind: 'look'; readonly look: HoldsQuestion }
  /** Show this place in the text. */
  | { readonly kind: 'reveal'; readonly range: SourceRange }
  /** Show the checklist that supposes this, in the preview; for the preview itself: change what it supposes. */
  | { readonly kind: 'checklist'; readonly suppose: readonly string[] };

/** What a page keeps over a reload. The host gets it with `ready`, and as the state of a serialised panel. */
export interface PanelState {
  /** Missing until the first answer. */
  readonly address?: ProcedureAddress;
  readonly picked: Picked;
  readonly question: CoverageQuestion;
  /** Missing as long as nobody has asked for less than all holds. */
  readonly look?: HoldsQuestion;
  readonly suppose: readonly string[];
  /** How far the page is scrolled down, in pixels. */
  readonly scroll: number;
}
