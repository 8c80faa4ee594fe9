import type { Part, RepeatPart, SourceRange, StepPart } from '@quarrel/pictures';
import type { ComponentChildren, JSX } from 'preact';
import type { TimeAxis } from './axis.js';
import { Bars } from './bars.js';
import { Findings, Sign, severities } from './findings.js';
import { durations, startWords, unbroken, windowOf } from './times.js';
import type { Words } from './words.js';

/** What every row of a timeline looks at. */
export interface RowContext {
  readonly axis: TimeAxis;
  readonly words: Words;
  /** The id of the step that the cursor stands in. */
  readonly current: string | undefined;
  /** The id of the step that the Tab key comes to; the arrow keys lead to the others. */
  readonly entry: string | undefined;
  readonly reveal: (range: SourceRange) => void;
  readonly onFocus: (step: string) => void;
  readonly onKey: (event: KeyboardEvent) => void;
}

interface PartsProps {
  readonly parts: readonly Part[];
  readonly depth: number;
  readonly context: RowContext;
}

export function Parts({ parts, depth, context }: PartsProps) {
  return (
    <ol class="parts">
      {parts.map((part, index) => (
        <PartRow key={keyOf(part, index)} part={part} depth={depth} context={context} />
      ))}
    </ol>
  );
}

function keyOf(part: Part, index: number): string {
  return part.kind === 'step' ? part.id : part.kind === 'stage' ? `stage ${part.label}` : `${part.kind} ${index}`;
}

function PartRow({ part, depth, context }: Omit<PartsProps, 'parts'> & { readonly part: Part }): JSX.Element {
  const { words, reveal } = context;
  switch (part.kind) {
    case 'step':
      return <StepRow step={part} depth={depth} context={context} />;
    case 'stage':
      return (
        <li class="stage">
          <h2>{part.label}</h2>
          <Parts parts={part.parts} depth={depth} context={context} />
        </li>
      );
    case 'repeat':
      return (
        <Group className="repeat" depth={depth} title={<RepeatTitle repeat={part} words={words} />}>
          <Parts parts={part.parts} depth={depth + 1} context={context} />
        </Group>
      );
    case 'branch':
      return (
        <Group className="branch" depth={depth} title={words.open}>
          <ul class="parts">
            {part.ways.map((way, index) => (
              <Group
                key={way.circumstance ?? `${index}`}
                className="way"
                depth={depth + 1}
                title={words.way(way.circumstance)}
              >
                {way.parts.length === 0 ? (
                  <p class="note" style={indentOf(depth + 2)}>
                    {words.nothingToDo}
                  </p>
                ) : (
                  <Parts parts={way.parts} depth={depth + 2} context={context} />
                )}
              </Group>
            ))}
          </ul>
        </Group>
      );
    case 'stop':
      return (
        <li class="stop">
          <button type="button" class="plain" style={indentOf(depth)} onClick={() => reveal(part.range)}>
            <span class="stop-sign" aria-hidden="true" />
            {words.workStops(part.reason)}
          </button>
        </li>
      );
  }
}

interface GroupProps {
  readonly className: string;
  readonly depth: number;
  readonly title: ComponentChildren;
  readonly children: ComponentChildren;
}

/** Parts that belong together under a line that says why. */
function Group({ className, depth, title, children }: GroupProps) {
  return (
    <li class={`group ${className}`} style={indentOf(depth)}>
      <p class="title">{title}</p>
      {children}
    </li>
  );
}

function RepeatTitle({ repeat, words }: { readonly repeat: RepeatPart; readonly words: Words }) {
  return (
    <>
      {words.passes(repeat.atMost, repeat.until)}
      {repeat.time !== undefined && <span class="aside"> · {words.allPasses(durations(repeat.time, words))}</span>}
    </>
  );
}

function StepRow({ step, depth, context }: Omit<PartsProps, 'parts'> & { readonly step: StepPart }) {
  const { words, current, entry, reveal, onFocus, onKey } = context;
  const isCurrent = step.id === current;
  const details = detailsOf(step, words);
  const worst = severities.find((severity) => step.findings.some((finding) => finding.severity === severity));
  return (
    <li class={isCurrent ? 'step current' : 'step'}>
      <button
        type="button"
        class="row"
        data-step={step.id}
        tabIndex={step.id === entry ? 0 : -1}
        aria-current={isCurrent ? 'step' : undefined}
        onClick={() => reveal(step.range)}
        onFocus={() => onFocus(step.id)}
        onKeyDown={onKey}
      >
        <span class="name" style={indentOf(depth)}>
          <span class="number">{step.number}</span>
          <span class="text">
            {step.text}
            <span class="spoken">: {spokenOf(step, words)}</span>
            {details.length > 0 && (
              <span class="details" aria-hidden="true">
                {unbroken(details.join(' · '))}
              </span>
            )}
          </span>
        </span>
        <span class="window" aria-hidden="true">
          {windowOf(step.start)}
          {worst !== undefined && <Sign severity={worst} />}
        </span>
        <Bars step={step} axis={context.axis} />
      </button>
      {step.findings.length > 0 && (
        <div class="of-step" style={indentOf(depth)}>
          <Findings findings={step.findings} words={words} reveal={reveal} />
        </div>
      )}
      {step.meanwhile.length > 0 && (
        <ul class="parts">
          <Group className="meanwhile" depth={depth + 1} title={words.meanwhile}>
            <Parts parts={step.meanwhile} depth={depth + 1} context={context} />
          </Group>
        </ul>
      )}
    </li>
  );
}

/** Rows keep their columns; only what they say is indented. */
function indentOf(depth: number): JSX.CSSProperties {
  return { '--depth': `${depth}` };
}

function detailsOf(step: StepPart, words: Words): readonly string[] {
  return [
    ...(step.takes === undefined ? [] : [words.takes(durations(step.takes, words))]),
    ...(step.hold === undefined ? [] : [words.hold(durations(step.hold, words))]),
    ...step.things.map(({ options }) =>
      options.length === 0 ? words.nothingChosen : options.map(({ label }) => label).join(` ${words.or} `),
    ),
    ...(step.stops.length === 0 ? [] : [words.mayStop]),
  ];
}

/** What the picture shows, for those who hear it: `starts between 3 min and 4 min 30 s, hold 1 min to 2 min`. */
function spokenOf(step: StepPart, words: Words): string {
  const more = [startWords(step.start, words), ...detailsOf(step, words)];
  const found = step.findings.map(({ severity }) => words.severity[severity]);
  return [...more, ...found].join(', ');
}
