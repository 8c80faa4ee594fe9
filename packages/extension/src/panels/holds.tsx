import type { Against, AssumptionShown, Holds, HoldsQuestion, Need, PressShown, SourceRange } from '@quarrel/pictures';
import { HoldsChart, letterOf, strokeOf, temperatureShown } from './holds-chart.js';
import { duration, durations } from './times.js';
import type { Words } from './words.js';

interface HoldsProps {
  readonly holds: Holds;
  readonly cursor: { readonly uri: string; readonly line: number } | undefined;
  readonly words: Words;
  readonly onLook: (question: HoldsQuestion) => void;
  readonly reveal: (range: SourceRange) => void;
}

/** Holds under pressure beside what resin is estimated to need, over the temperature of the glass. */
export function HoldsView({ holds, cursor, words, onLook, reveal }: HoldsProps) {
  const { procedure, steps, step, missing } = holds;
  const { ofHolds } = words;
  return (
    <>
      <header class="head">
        <h1>{procedure.label}</h1>
      </header>
      <p class="declined">{ofHolds.estimate}</p>
      {steps.length > 1 && (
        <div class="situation">
          <label class="picker">
            <span class="of">{ofHolds.shown}</span>
            <select
              value={step ?? ''}
              onChange={({ currentTarget: { value } }) => onLook(value === '' ? {} : { step: value })}
            >
              <option value="">{ofHolds.everyStep}</option>
              {steps.map(({ name, label }) => (
                <option key={name} value={name}>
                  {label}
                </option>
              ))}
            </select>
          </label>
        </div>
      )}
      <HoldsChart {...{ holds, words }} />
      <Turning {...{ holds, words, reveal }} />
      <Presses {...{ holds, words, reveal }} current={pressAt(holds.presses, cursor)} />
      <Needs {...{ holds, words, reveal }} />
      {missing.length > 0 && (
        <section class="told">
          <h2>{ofHolds.missing}</h2>
          <ul>
            {missing.map(({ message, wakes, range }) => (
              <li key={message}>
                <Place range={range} reveal={reveal}>
                  {message} {ofHolds.wakes} <code>{wakes}</code>
                </Place>
              </li>
            ))}
          </ul>
        </section>
      )}
      <Assumptions assumptions={holds.assumptions} {...{ words, reveal }} />
    </>
  );
}

type PartProps = Pick<HoldsProps, 'holds' | 'words' | 'reveal'>;

/** What leads to a place in the text, where there is one. */
function Place({
  range,
  reveal,
  children,
}: {
  readonly range: SourceRange | undefined;
  readonly reveal: (range: SourceRange) => void;
  readonly children: preact.ComponentChildren;
}) {
  if (range === undefined) return <span class="plain">{children}</span>;
  return (
    <button type="button" class="plain" onClick={() => reveal(range)}>
      <span>{children}</span>
    </button>
  );
}

function Turning({ holds, words, reveal }: PartProps) {
  const { ofHolds } = words;
  const turns = holds.presses.flatMap((press, index) =>
    press.against
      .filter(({ short }) => short !== 'nowhere')
      .map((against) => ({ press, against, number: index + 1, need: holds.needs[against.need] })),
  );
  return (
    <section class="told turning">
      <h2>{ofHolds.turns}</h2>
      {turns.length === 0 && <p>{ofHolds.noTurns}</p>}
      <ul>
        {turns.map(({ press, against, number, need }) => (
          <li key={`${press.id} ${against.need}`}>
            <Place range={press.range} reveal={reveal}>
              <b>{where(against, words)}:</b> <Mark kind="of-hold" text={`${number}`} />{' '}
              {need !== undefined && (
                <>
                  <Mark kind="of-need" text={letterOf(against.need)} /> {shortness(press, need, words)}{' '}
                </>
              )}
              <span class="details">{against.isOutlasted ? ofHolds.outlasted : ofHolds.longest}</span>
            </Place>
          </li>
        ))}
      </ul>
    </section>
  );
}

function where({ short, turn }: Against, { ofHolds }: Words): string {
  return short === 'everywhere' || turn === undefined ? ofHolds.everywhere : ofHolds.below(turn.text, turn.isExact);
}

function shortness({ hold }: PressShown, need: Need, words: Words): string {
  const { ofHolds } = words;
  const held = hold === undefined ? ofHolds.noHold : duration(hold.least);
  return `${ofHolds.short(held, need.resin.label, ofHolds.legOf(need.length, need.gap))}.`;
}

function Presses({ holds, words, reveal, current }: PartProps & { readonly current: string | undefined }) {
  return (
    <section class="told">
      <h2>{words.ofHolds.holds}</h2>
      <ul>
        {holds.presses.map(({ id, text, range, hold, done }, index) => (
          <li
            key={id}
            class={id === current ? 'current' : undefined}
            aria-current={id === current ? 'step' : undefined}
          >
            <Place range={range} reveal={reveal}>
              <Mark kind="of-hold" text={`${index + 1}`} /> {text}
              <span class="details">
                {hold === undefined ? words.ofHolds.noHold : words.hold(durations(sorted(hold), words))}
                {', '}
                {done
                  .map(({ low, high }) =>
                    words.range(temperatureShown(low, holds.reading), temperatureShown(high, holds.reading)),
                  )
                  .join('; ')}
              </span>
            </Place>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A hold that is written backwards is drawn forwards; a finding says that it is. */
function sorted({ least, most }: NonNullable<PressShown['hold']>): NonNullable<PressShown['hold']> {
  return most === undefined ? { least } : { least: Math.min(least, most), most: Math.max(least, most) };
}

function Needs({ holds, words, reveal }: PartProps) {
  const { ofHolds } = words;
  const { needs, reading, scales } = holds;
  return (
    <section class="told needs">
      <h2>{ofHolds.needs}</h2>
      <div class="scroller">
        <table>
          <thead>
            <tr>
              <th scope="col">{ofHolds.line}</th>
              <th scope="col">{ofHolds.resin}</th>
              {scales.temperature.marks.map((mark) => (
                <th key={mark} scope="col" class="of-time">
                  {temperatureShown(mark, reading)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {needs.map((need, index) => (
              <tr key={letterOf(index)}>
                <th scope="row">
                  <svg class={`need ${strokeOf(need, needs)}`} width="34" height="12" aria-hidden="true">
                    <path d="M0 6H34" />
                  </svg>
                  <Mark kind="of-need" text={letterOf(index)} />
                </th>
                <td>
                  <button type="button" class="link" onClick={() => reveal(need.range)}>
                    {need.resin.label}
                  </button>
                  <span class="details">{ofHolds.legOf(need.length, need.gap)}</span>
                  <span class="details">
                    {need.circumstance === 'always' ? ofHolds.always : ofHolds.when(need.circumstance)}
                  </span>
                  {doubtsOf(need, words).map((doubt) => (
                    <span key={doubt} class="details">
                      {doubt}
                    </span>
                  ))}
                </td>
                {scales.temperature.marks.map((mark) => (
                  <td key={mark} class="of-time">
                    {timeAt(need, mark) ?? (
                      <>
                        <span aria-hidden="true">–</span>
                        <span class="spoken">{ofHolds.noEstimate}</span>
                      </>
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <ul class="legend" aria-label={words.legend}>
        <li>
          <svg class="need" width="34" height="12" aria-hidden="true">
            <path class="doubtful" d="M0 6H34" />
          </svg>
          {ofHolds.doubtful}
        </li>
        <li>
          <svg class="band" width="34" height="12" aria-hidden="true">
            <path class="band-least" d="M0 6H34" />
          </svg>
          {words.holdLeast}
        </li>
        <li>
          <svg class="band" width="34" height="12" aria-hidden="true">
            <path class="band-most" d="M0 6H34" />
          </svg>
          {words.holdMost}
        </li>
      </ul>
    </section>
  );
}

function doubtsOf({ parts }: Need, { ofHolds }: Words): readonly string[] {
  return [...new Set(parts.flatMap(({ doubts }) => doubts))].map((doubt) => ofHolds.doubts[doubt]);
}

/** To a second above; two digits below ten seconds. */
function timeAt({ atMarks }: Need, mark: number): string | undefined {
  const seconds = atMarks.find(({ temperature }) => temperature === mark)?.seconds;
  if (seconds === undefined) return undefined;
  return duration(seconds < 10 ? Number(seconds.toPrecision(2)) : Math.ceil(seconds));
}

function Mark({ kind, text }: { readonly kind: 'of-need' | 'of-hold'; readonly text: string }) {
  return <span class={`badge-mark ${kind}`}>{text}</span>;
}

interface AssumptionsProps extends Pick<HoldsProps, 'words' | 'reveal'> {
  readonly assumptions: readonly AssumptionShown[];
}

function Assumptions({ assumptions, words, reveal }: AssumptionsProps) {
  const { ofHolds } = words;
  return (
    <section class="told">
      <h2>{ofHolds.assumptions}</h2>
      <ul>
        {assumptions.map(({ property, text, circumstance, because, source, range }) => (
          <li key={`${range.uri} ${range.start.line} ${range.start.column} ${text}`}>
            <Place range={range} reveal={reveal}>
              <b>
                {ofHolds.properties[property] ?? property} {text}
              </b>
              {circumstance === undefined ? '' : ` ${ofHolds.when(circumstance)}`}
              <span class="details">{[because, source].filter((one) => one !== undefined).join(' · ')}</span>
            </Place>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The step around the cursor. */
function pressAt(presses: readonly PressShown[], cursor: HoldsProps['cursor']): string | undefined {
  return presses.findLast(
    ({ range }) => cursor?.uri === range.uri && range.start.line <= cursor.line && cursor.line <= range.end.line,
  )?.id;
}
