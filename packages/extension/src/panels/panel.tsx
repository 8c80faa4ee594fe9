import type { CoverageQuestion } from '@quarrel/pictures';
import { render } from 'preact';
import { useEffect, useReducer, useState } from 'preact/hooks';
import { ChecklistView } from './checklist.js';
import { CoverageView } from './coverage.js';
import { HoldsView } from './holds.js';
import { connectHost, type Host } from './host.js';
import type { PanelAnswer, ToPanel } from './messages.js';
import { TimelineView } from './timeline.js';
import { type Words, wordsFor } from './words.js';

/** An answer that can be drawn. */
type Picture = Exclude<PanelAnswer, { readonly kind: 'nothing' }>;

interface Shown {
  /** The last answer that could be drawn. */
  readonly picture?: Picture;
  /** Why there is none of the sheet as it stands. */
  readonly nothing?: string;
  readonly isBusy: boolean;
  readonly cursor?: { readonly uri: string; readonly line: number };
}

function Panel({ host, words }: { readonly host: Host; readonly words: Words }) {
  const [shown, setShown] = useState<Shown>({ isBusy: true });
  useEffect(() => {
    host.listen((message) => {
      if (message.kind === 'show') keepAsked(host, message);
      setShown((before) => heard(before, message));
    });
    host.tell({ kind: 'ready', state: host.state });
  }, [host]);
  const isEmpty = shown.picture === undefined;
  useEffect(() => {
    if (!isEmpty) followScroll(host);
  }, [host, isEmpty]);
  const { picture, nothing, isBusy, cursor } = shown;
  return (
    <main class={nothing === undefined ? undefined : 'stale'} aria-busy={isBusy}>
      {nothing !== undefined && (
        <p class="nothing" role="status">
          {isEmpty ? nothing : words.stale(nothing)}
        </p>
      )}
      {isEmpty && nothing === undefined && <p class="nothing">{words.waiting}</p>}
      {picture !== undefined && (
        <div class="picture">
          <PictureView {...{ picture, cursor, host, words }} />
        </div>
      )}
    </main>
  );
}

/** What was picked in another sheet says nothing of this one. */
function keepAsked(host: Host, { address, suppose }: Extract<ToPanel, { kind: 'show' }>): void {
  const before = host.state.address?.uri;
  const isOther = before !== undefined && before !== address.uri;
  host.keep({ ...(isOther ? { picked: {}, question: { fixed: {} }, look: {} } : {}), address, suppose });
}

function heard(before: Shown, message: ToPanel): Shown {
  switch (message.kind) {
    case 'busy':
      return { ...before, isBusy: true };
    case 'cursor':
      return { ...before, cursor: { uri: message.uri, line: message.line } };
    case 'show': {
      const { nothing: _, ...rest } = before;
      const { answer } = message;
      return answer.kind === 'nothing'
        ? { ...rest, isBusy: false, nothing: answer.reason }
        : { ...rest, isBusy: false, picture: answer };
    }
  }
}

interface PictureProps {
  readonly picture: Picture;
  readonly cursor: Shown['cursor'];
  readonly host: Host;
  readonly words: Words;
}

function PictureView({ picture, cursor, host, words }: PictureProps) {
  // What is kept shows at once; the next question may come before this one is answered.
  const [, redraw] = useReducer((count: number) => count + 1, 0);
  const showChecklist = (suppose: readonly string[]): void => host.tell({ kind: 'checklist', suppose });
  switch (picture.kind) {
    case 'timeline':
      return (
        <TimelineView
          timeline={picture.timeline}
          {...{ cursor, words, showChecklist }}
          onPick={(condition, value) => {
            const { [condition]: _, ...others } = host.state.picked;
            // What was picked last stands first: it counts where two cannot be together.
            const picked = { [condition]: value, ...others };
            host.keep({ picked });
            host.tell({ kind: 'pick', picked });
          }}
          reveal={(range) => host.tell({ kind: 'reveal', range })}
        />
      );
    case 'coverage':
      return (
        <CoverageView
          coverage={picture.coverage}
          question={host.state.question}
          {...{ words, showChecklist }}
          onAsk={(question: CoverageQuestion) => {
            host.keep({ question });
            redraw(undefined);
            host.tell({ kind: 'ask', question });
          }}
        />
      );
    case 'holds':
      return (
        <HoldsView
          holds={picture.holds}
          {...{ cursor, words }}
          onLook={(look) => {
            host.keep({ look });
            host.tell({ kind: 'look', look });
          }}
          reveal={(range) => host.tell({ kind: 'reveal', range })}
        />
      );
    case 'checklist':
      return (
        <ChecklistView
          page={picture.text}
          draft={picture.draft}
          suppose={host.state.suppose}
          words={words}
          onSuppose={(suppose) => {
            host.keep({ suppose });
            host.tell({ kind: 'checklist', suppose });
          }}
        />
      );
  }
}

/** Goes to where the page was before a reload, as soon as there is something to scroll, and keeps in mind where it is from there on. */
function followScroll(host: Host): void {
  window.scrollTo({ top: host.state.scroll });
  window.addEventListener('scrollend', () => host.keep({ scroll: window.scrollY }));
}

render(<Panel host={connectHost()} words={wordsFor(document.documentElement.lang)} />, document.body);
