import { spokenDuration } from '@quarrel/model';
import type { Holds, Need } from '@quarrel/pictures';

// A hover knows nothing of the theme around it, so the picture brings a paper of its own, which reads on light and on dark.
const paper = '#f6f5f0';
const ink = '#22303a';
const rule = '#d5d6d1';
const holdTone = '#c9dcea';
const holdEdge = '#2f6690';

/** How the line of each resin looks: told apart by its strokes, and by its colour as well. */
const strokes = [
  { colour: '#a03a1c', dashes: '' },
  { colour: '#3d3285', dashes: '8 4' },
  { colour: '#20603f', dashes: '2 4' },
  { colour: '#7a5200', dashes: '10 4 2 4' },
] as const;

const width = 380;
const plot = { left: 52, right: width - 14, top: 14, bottom: 160 } as const;
const lineHeight = 18;

/** Needs as lines and the hold as a band, against the temperature of the glass; time on a logarithmic scale. */
export function holdPicture(holds: Holds): string {
  const resins = [...new Set(holds.needs.map(({ resin }) => resin.label))];
  const height = plot.bottom + 42 + (resins.length + 1) * lineHeight;
  const strokeOf = (need: Need): (typeof strokes)[number] =>
    strokes[resins.indexOf(need.resin.label) % strokes.length] ?? strokes[0];
  const parts = [
    `<rect width="${width}" height="${height}" rx="6" fill="${paper}"/>`,
    ...marksOf(holds),
    ...bandsOf(holds),
    ...holds.needs.flatMap((need) => need.parts.map(({ points }) => lineOf(points, strokeOf(need), holds))),
    ...turnsOf(holds),
    text(plot.left, plot.bottom + 34, holds.reading.label),
    ...resins.map((label, index) => {
      const { colour, dashes } = strokes[index % strokes.length] ?? strokes[0];
      const y = plot.bottom + 42 + (index + 0.6) * lineHeight;
      const sample = `<path d="M${plot.left} ${y - 4}h28" fill="none" stroke="${colour}" stroke-width="2.5" stroke-dasharray="${dashes}"/>`;
      return `${sample}${text(plot.left + 36, y, shortened(label))}`;
    }),
    keyOfHold(plot.bottom + 42 + (resins.length + 0.6) * lineHeight),
  ];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="system-ui, sans-serif" font-size="12" fill="${ink}">${parts.join('')}</svg>`;
}

function across(kelvin: number, { scales: { temperature } }: Holds): number {
  const share = (kelvin - temperature.low) / (temperature.high - temperature.low);
  return rounded(plot.left + share * (plot.right - plot.left));
}

function up(seconds: number, { scales: { time } }: Holds): number {
  const share = Math.log(Math.max(seconds, time.low) / time.low) / Math.log(time.high / time.low);
  return rounded(plot.bottom - share * (plot.bottom - plot.top));
}

function rounded(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}

function bandsOf(holds: Holds): readonly string[] {
  return holds.presses.flatMap(({ hold, done }) => {
    if (hold === undefined) return [];
    const ends = [hold.least, hold.most ?? hold.least].map((seconds) => up(seconds, holds));
    const [top, bottom] = [Math.min(...ends), Math.max(...ends)];
    return done.flatMap(({ low, high }) => {
      const [from, to] = [across(low, holds), across(high, holds)];
      const band = `<rect x="${from}" y="${top}" width="${rounded(to - from)}" height="${rounded(bottom - top)}" fill="${holdTone}" fill-opacity="0.75"/>`;
      return [band, `<path d="M${from} ${up(hold.least, holds)}H${to}" stroke="${holdEdge}" stroke-width="2"/>`];
    });
  });
}

function marksOf(holds: Holds): readonly string[] {
  const { scales, reading } = holds;
  const { factor, offset, name } = reading.unit;
  return [
    ...scales.time.marks.map((seconds) => {
      const y = up(seconds, holds);
      return `<path d="M${plot.left} ${y}H${plot.right}" stroke="${rule}"/>${text(plot.left - 6, y + 4, spokenDuration(seconds), 'end')}`;
    }),
    ...scales.temperature.marks.map((kelvin) => {
      const x = across(kelvin, holds);
      const shown = `${Number((kelvin / factor - offset).toFixed(1))} ${name}`;
      const tick = `<path d="M${x} ${plot.bottom}v4" stroke="${ink}"/>`;
      return `${tick}${text(Math.min(x, plot.right - 10), plot.bottom + 17, shown, 'middle')}`;
    }),
    `<path d="M${plot.left} ${plot.top}V${plot.bottom}H${plot.right}" fill="none" stroke="${ink}"/>`,
  ];
}

function lineOf(
  points: Need['parts'][number]['points'],
  { colour, dashes }: (typeof strokes)[number],
  holds: Holds,
): string {
  // Six of the points are as smooth as so small a picture can show.
  const every = Math.max(1, Math.floor(points.length / 6));
  const few = points.filter((_, index) => index % every === 0 || index === points.length - 1);
  const way = few.map(({ temperature, seconds }) => `${across(temperature, holds)} ${up(seconds, holds)}`).join('L');
  return `<path d="M${way}" fill="none" stroke="${colour}" stroke-width="2.5" stroke-dasharray="${dashes}"/>`;
}

/** Rings where a need is as long as the hold, each with its temperature. */
function turnsOf(holds: Holds): readonly string[] {
  return holds.presses.flatMap(({ hold, against }) =>
    against.flatMap(({ turn, short }) => {
      if (hold === undefined || turn === undefined || !turn.isExact || short !== 'below') return [];
      const [x, y] = [across(turn.at, holds), up(hold.least, holds)];
      const isFar = x > plot.right - 70;
      const said = text(isFar ? x - 9 : x + 9, y - 8, turn.text, isFar ? 'end' : 'start');
      const drop = `<path d="M${x} ${y}V${plot.bottom}" stroke="${ink}" stroke-dasharray="2 3"/>`;
      return [`${drop}<circle cx="${x}" cy="${y}" r="4.5" fill="${paper}" stroke="${ink}" stroke-width="2"/>${said}`];
    }),
  );
}

function keyOfHold(y: number): string {
  const sample = `<rect x="${plot.left}" y="${y - 9}" width="28" height="10" fill="${holdTone}"/><path d="M${plot.left} ${y + 1}h28" stroke="${holdEdge}" stroke-width="2"/>`;
  return `${sample}${text(plot.left + 36, y, 'the hold, from its least')}`;
}

const mostLetters = 46;

function shortened(label: string): string {
  return label.length > mostLetters ? `${label.slice(0, mostLetters - 1)}…` : label;
}

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end' = 'start'): string {
  const safe = words.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
  return `<text x="${x}" y="${rounded(y)}" text-anchor="${anchor}">${safe}</text>`;
}
