import type { Holds, Need, NeedPoint, PressShown } from '@quarrel/pictures';
import type { RefObject } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { duration } from './times.js';
import type { Words } from './words.js';

interface ChartProps {
  readonly holds: Holds;
  readonly words: Words;
}

/** In pixels. */
const height = 380;
const margin = { left: 64, right: 20, top: 28, bottom: 44 } as const;

/** Where values lie in a chart, in pixels. */
interface Frame {
  readonly width: number;
  readonly right: number;
  readonly bottom: number;
  across(kelvin: number): number;
  up(seconds: number): number;
}

/** Needs as lines and holds as bands against the temperature of the glass; time on a logarithmic scale. */
export function HoldsChart({ holds, words }: ChartProps) {
  const around = useRef<HTMLDivElement>(null);
  const frame = frameOf(holds, useWidth(around));
  const { needs, presses, reading } = holds;
  const rings = ringsOf(presses, frame);
  return (
    <div class="holds-chart" ref={around}>
      <svg
        width={frame.width}
        height={height}
        role="img"
        aria-label={words.ofHolds.chart(reading.label, needs.length, presses.length)}
      >
        <Scales {...{ holds, frame, words }} />
        {presses.map((press, index) => (
          <Band key={press.id} {...{ press, index, frame }} />
        ))}
        {needs.map((need, index) => (
          <NeedLine key={letterOf(index)} {...{ need, index, needs, rings, frame }} />
        ))}
        <Turns {...{ rings, frame }} />
      </svg>
    </div>
  );
}

function frameOf({ scales: { temperature, time } }: Holds, width: number): Frame {
  const [right, bottom] = [width - margin.right, height - margin.bottom];
  const share = (value: number, low: number, high: number): number => (value - low) / (high - low);
  return {
    width,
    right,
    bottom,
    across: (kelvin) => margin.left + share(kelvin, temperature.low, temperature.high) * (right - margin.left),
    up: (seconds) => {
      const [at, low, high] = [Math.max(seconds, time.low), time.low, time.high].map(Math.log);
      return bottom - share(at ?? 0, low ?? 0, high ?? 1) * (bottom - margin.top);
    },
  };
}

/** The width that a picture can have, in pixels, as it changes. */
function useWidth(around: RefObject<HTMLElement>): number {
  const [width, setWidth] = useState(320);
  useLayoutEffect(() => {
    const box = around.current;
    if (box === null) return;
    const observer = new ResizeObserver(() => setWidth(Math.max(280, box.clientWidth)));
    observer.observe(box);
    return () => observer.disconnect();
  }, [around]);
  return width;
}

/** What the words at a mark need with the space beside them, in pixels. */
const widthOfMark = 56;

function Scales({ holds, frame, words }: ChartProps & { readonly frame: Frame }) {
  const { scales, reading } = holds;
  const { across, up, right, bottom } = frame;
  const every = Math.ceil((scales.temperature.marks.length * widthOfMark) / (right - margin.left));
  return (
    <g class="scales">
      {scales.time.marks.map((seconds) => (
        <g key={seconds}>
          <path class="grid-line" d={`M${margin.left} ${up(seconds)}H${right}`} />
          <text class="mark" x={margin.left - 8} y={up(seconds) + 4} text-anchor="end">
            {duration(seconds)}
          </text>
        </g>
      ))}
      {scales.temperature.marks
        .filter((_, index) => index % every === 0)
        .map((kelvin) => (
          <g key={kelvin}>
            <path class="axis" d={`M${across(kelvin)} ${bottom}v5`} />
            <text class="mark" x={across(kelvin)} y={bottom + 19} text-anchor="middle">
              {temperatureShown(kelvin, reading)}
            </text>
          </g>
        ))}
      <path class="axis" d={`M${margin.left} ${margin.top}V${bottom}H${right}`} />
      <text class="axis-title" x={right} y={height - 6} text-anchor="end">
        {reading.label}
      </text>
      <text class="axis-title" x={margin.left - 8} y={14} text-anchor="end">
        {words.ofHolds.time}
      </text>
    </g>
  );
}

interface BandProps {
  readonly press: PressShown;
  readonly index: number;
  readonly frame: Frame;
}

/** A hold: its least as a full line, its most as a broken one. */
function Band({ press: { hold, done }, index, frame: { across, up } }: BandProps) {
  if (hold === undefined) return null;
  const [least, most] = [up(hold.least), hold.most === undefined ? margin.top : up(hold.most)];
  return (
    <g class="band">
      {done.map(({ low, high }) => {
        const [from, to] = [across(low), across(high)];
        return (
          <g key={low}>
            <rect x={from} y={Math.min(least, most)} width={to - from} height={Math.abs(least - most)} />
            <path class="band-least" d={`M${from} ${least}H${to}`} />
            {hold.most !== undefined && <path class="band-most" d={`M${from} ${most}H${to}`} />}
            <Badge
              x={Math.max(from + 12, to - 14 - index * 24)}
              y={(least + most) / 2}
              text={`${index + 1}`}
              kind="of-hold"
            />
          </g>
        );
      })}
    </g>
  );
}

interface LineProps {
  readonly need: Need;
  readonly index: number;
  readonly needs: readonly Need[];
  readonly rings: readonly Ring[];
  readonly frame: Frame;
}

/** In pixels, from the middle of a letter to that of a ring. */
const besideRing = 20;

function NeedLine({ need, index, needs, rings, frame }: LineProps) {
  const points = need.parts.flatMap((part) => part.points);
  // Each letter stands further along its line than the one before, so that letters of lines close together stay apart.
  const first = Math.floor((points.length * (index + 0.7)) / (needs.length + 0.4));
  const isClear = ({ temperature, seconds }: NeedPoint): boolean =>
    rings.every(({ x, y }) => Math.hypot(frame.across(temperature) - x, frame.up(seconds) - y) > besideRing);
  const at = points.slice(first).find(isClear) ?? points[first];
  return (
    <g class={`need ${strokeOf(need, needs)}`}>
      {need.parts.map(({ points: some, doubts }) => (
        <path key={some[0]?.temperature} class={doubts.length > 0 ? 'doubtful' : undefined} d={wayOf(some, frame)} />
      ))}
      {at !== undefined && (
        <Badge x={frame.across(at.temperature)} y={frame.up(at.seconds)} text={letterOf(index)} kind="of-need" />
      )}
    </g>
  );
}

function wayOf(points: readonly NeedPoint[], { across, up }: Frame): string {
  return `M${points.map(({ temperature, seconds }) => `${across(temperature).toFixed(1)} ${up(seconds).toFixed(1)}`).join('L')}`;
}

/** Where a need is as long as a hold. */
function ringsOf(presses: readonly PressShown[], frame: Frame): readonly Ring[] {
  return presses.flatMap(({ id, hold, against }) =>
    against.flatMap(({ need, turn, short }) => {
      if (hold === undefined || turn === undefined || !turn.isExact || short !== 'below') return [];
      return [ringAt(`${id} ${need}`, turn.text, frame.across(turn.at), frame.up(hold.least))];
    }),
  );
}

/** Rings, with their temperatures as far as there is room. */
function Turns({ rings, frame }: { readonly rings: readonly Ring[]; readonly frame: Frame }) {
  return (
    <g class="turns">
      {rings.map(({ key, text, x, y, textFrom, textAt }, index) => (
        <g key={key} class="turn">
          <path d={`M${x} ${y}V${frame.bottom}`} />
          <circle cx={x} cy={y} r={5} />
          {rings.slice(0, index).every((other) => isApart(other, { textAt, textFrom })) && (
            <text x={textFrom} y={textAt}>
              {text}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

interface Ring {
  readonly key: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  /** Where its text stands: below and to the left, where no line goes; above and to the right where there is no room. */
  readonly textFrom: number;
  readonly textAt: number;
}

/** What the temperature at a ring needs, in pixels. */
const textSize = { width: 64, height: 16 } as const;

function ringAt(key: string, text: string, x: number, y: number): Ring {
  const hasRoom = x - 4 - textSize.width > margin.left;
  return hasRoom
    ? { key, text, x, y, textFrom: x - 4 - textSize.width, textAt: y + 18 }
    : { key, text, x, y, textFrom: x + 10, textAt: y - 9 };
}

function isApart(one: Pick<Ring, 'textFrom' | 'textAt'>, other: Pick<Ring, 'textFrom' | 'textAt'>): boolean {
  return (
    Math.abs(one.textFrom - other.textFrom) >= textSize.width || Math.abs(one.textAt - other.textAt) >= textSize.height
  );
}

interface BadgeProps {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly kind: 'of-need' | 'of-hold';
}

/** A letter for a line, or a number for a hold: the tables speak of them. */
function Badge({ x, y, text, kind }: BadgeProps) {
  return (
    <g class={`badge ${kind}`}>
      {kind === 'of-need' ? <circle cx={x} cy={y} r={9} /> : <rect x={x - 9} y={y - 9} width={18} height={18} rx={2} />}
      <text x={x} y={y + 4} text-anchor="middle">
        {text}
      </text>
    </g>
  );
}

/** How many ways of drawing a line there are. */
const strokes = 4;

/** How the line of a need is drawn: every resin in its own way. */
export function strokeOf({ resin }: Need, needs: readonly Need[]): string {
  const resins = [...new Set(needs.map((need) => need.resin.name))];
  return `stroke-${resins.indexOf(resin.name) % strokes}`;
}

/** `A` for the first line. */
export function letterOf(index: number): string {
  return index < 26 ? String.fromCharCode(65 + index) : `${index + 1}`;
}

export function temperatureShown(kelvin: number, { unit }: Holds['reading']): string {
  return `${Number((kelvin / unit.factor - unit.offset).toFixed(2))} ${unit.name}`;
}
