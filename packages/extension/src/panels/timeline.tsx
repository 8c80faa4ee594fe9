import type { Part, SourceRange, StepPart, Timeline } from '@quarrel/pictures';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { axisFor, type TimeAxis } from './axis.js';
import { Findings } from './findings.js';
import { Picker } from './pickers.js';
import { Parts } from './steps.js';
import { durations, stopwatch, windowOf } from './times.js';
import type { Words } from './words.js';

interface TimelineProps {
  readonly timeline: Timeline;
  readonly cursor: { readonly uri: string; readonly line: number } | undefined;
  readonly words: Words;
  readonly onPick: (condition: string, value: string | number) => void;
  readonly reveal: (range: SourceRange) => void;
  readonly showChecklist: (suppose: readonly string[]) => void;
}

export function TimelineView({ timeline, cursor, words, onPick, reveal, showChecklist }: TimelineProps) {
  const { procedure, situation, conditions, parts, total, stops, findings } = timeline;
  const steps = stepsIn(parts);
  const current = cursor && stepAt(steps, cursor.uri, cursor.line)?.id;
  const [focused, setFocused] = useState<string>();
  const chart = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (current !== undefined) rowOf(chart.current, current)?.scrollIntoView({ block: 'nearest' });
  }, [current]);
  const known = (id: string | undefined): boolean => steps.some((step) => step.id === id);
  const entry = [focused, current, steps[0]?.id].find(known);
  const onKey = (event: KeyboardEvent): void => moveFocus(event, chart.current);
  const axis = axisFor(parts, total, Math.max(2, Math.floor(useTrackWidth(chart) / widthOfTick)));
  return (
    <>
      <header class="head">
        <h1>{procedure.label}</h1>
        <p>{total === undefined ? words.neverEnds : words.whole(durations(total, words))}</p>
      </header>
      <Situation {...{ situation, conditions, words, onPick, showChecklist }} />
      {findings.length > 0 && (
        <section aria-label={words.findings}>
          <Findings findings={findings} words={words} reveal={reveal} />
        </section>
      )}
      <div class="chart" ref={chart} style={{ '--tick': `${(axis.every / axis.end) * 100}%` }}>
        <Clock axis={axis} words={words} />
        <Parts parts={parts} depth={0} context={{ axis, words, current, entry, reveal, onFocus: setFocused, onKey }} />
      </div>
      <Legend words={words} />
      {stops.length > 0 && (
        <section class="stops">
          <h2>{words.stops}</h2>
          <ul>
            {stops.map(({ reason, range, at }) => (
              <li key={`${range.start.line} ${range.start.column} ${reason}`}>
                <button type="button" class="plain" onClick={() => reveal(range)}>
                  <span class="window">{windowOf(at)}</span>
                  <span>{reason}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

/** What the time at a tick needs with the space beside it, in pixels. */
const widthOfTick = 64;

/** The width of the part of a chart that is drawn on, in pixels, as it changes. */
function useTrackWidth(chart: RefObject<HTMLElement>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const track = chart.current?.querySelector('.track');
    if (!track) return;
    const observer = new ResizeObserver(() => setWidth(track.clientWidth));
    observer.observe(track);
    return () => observer.disconnect();
  }, [chart]);
  return width;
}

type SituationProps = Pick<Timeline, 'situation' | 'conditions'> &
  Pick<TimelineProps, 'words' | 'onPick' | 'showChecklist'>;

function Situation({ situation, conditions, words, onPick, showChecklist }: SituationProps) {
  const pickers = (decides: boolean) =>
    conditions
      .filter((pick) => pick.decides === decides)
      .map((pick) => (
        <Picker
          key={pick.name}
          pick={pick}
          taken={true}
          words={words}
          onPick={(value) => value !== undefined && onPick(pick.name, value)}
        />
      ));
  const more = pickers(false);
  return (
    <section class="situation" aria-label={words.situation}>
      <div class="pickers">{pickers(true)}</div>
      {more.length > 0 && (
        <details>
          <summary>{words.moreConditions}</summary>
          <div class="pickers">{more}</div>
        </details>
      )}
      {situation.declined.map(({ condition, picked, taken }) => (
        <p key={condition} class="declined" role="status">
          {words.declined(condition, picked, taken)}
        </p>
      ))}
      <button type="button" class="link" onClick={() => showChecklist(situation.suppose)}>
        {words.toChecklist}
      </button>
    </section>
  );
}

function Clock({ axis, words }: { readonly axis: TimeAxis; readonly words: Words }) {
  return (
    <div class="clock row" aria-hidden="true">
      <span class="name">{words.step}</span>
      <span class="window">{words.startsAt}</span>
      <span class="track">
        {axis.ticks.map((tick) => (
          <span key={tick} class="tick" style={{ left: `${(tick / axis.end) * 100}%` }}>
            {stopwatch(tick)}
          </span>
        ))}
      </span>
    </div>
  );
}

function Legend({ words }: { readonly words: Words }) {
  const kinds = [
    ['hands-on', words.handsOn],
    ['least', words.holdLeast],
    ['most', words.holdMost],
    ['late', words.later],
  ] as const;
  return (
    <ul class="legend" aria-label={words.legend}>
      {kinds.map(([kind, text]) => (
        <li key={kind}>
          <span class="sample" aria-hidden="true">
            <span class={`stretch ${kind}`} />
          </span>
          {text}
        </li>
      ))}
    </ul>
  );
}

function stepsIn(parts: readonly Part[]): readonly StepPart[] {
  return parts.flatMap((part): readonly StepPart[] => {
    switch (part.kind) {
      case 'step':
        return [part, ...stepsIn(part.meanwhile)];
      case 'branch':
        return part.ways.flatMap((way) => stepsIn(way.parts));
      case 'stop':
        return [];
      default:
        return stepsIn(part.parts);
    }
  });
}

/** The innermost step around a line; of steps around one another it comes last. */
function stepAt(steps: readonly StepPart[], uri: string, line: number): StepPart | undefined {
  return steps.findLast(({ range }) => range.uri === uri && range.start.line <= line && line <= range.end.line);
}

function rowOf(chart: HTMLElement | null, step: string): HTMLElement | undefined {
  return rowsIn(chart).find((row) => row.dataset.step === step);
}

function rowsIn(chart: HTMLElement | null): readonly HTMLElement[] {
  return [...(chart?.querySelectorAll<HTMLElement>('[data-step]') ?? [])];
}

/** Where each key leads from a row, as a place in the list of all rows. */
const moves: Readonly<Record<string, (at: number, count: number) => number>> = {
  ArrowDown: (at, count) => Math.min(at + 1, count - 1),
  ArrowUp: (at) => Math.max(at - 1, 0),
  Home: () => 0,
  End: (_, count) => count - 1,
};

function moveFocus(event: KeyboardEvent, chart: HTMLElement | null): void {
  const rows = rowsIn(chart);
  const at = rows.findIndex((row) => row.matches(':focus'));
  const move = moves[event.key];
  if (at < 0 || move === undefined) return;
  event.preventDefault();
  rows[move(at, rows.length)]?.focus();
}
