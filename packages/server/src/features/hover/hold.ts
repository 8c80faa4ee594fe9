import { fillingSteps } from '@quarrel/checks';
import { type Span, type Step, spokenDuration } from '@quarrel/model';
import { type Against, type Doubt, type Holds, holdsOf, type Need, type PressShown } from '@quarrel/pictures';
import type { Known } from '../runs.js';
import { holdPicture } from './hold-picture.js';
import { code, list, page, picture, plain } from './markdown.js';
import { spanWords } from './quantity.js';

/**
 * The hold of a step that presses resin in, beside how long the resin is estimated to need: in words, and as a small picture.
 * Nothing for the hold of any other step.
 */
export function holdHover(step: Step, { procedure, steps, run }: Known): string | undefined {
  const isFilling = fillingSteps({ procedure, steps }).some((one) => one.step === step);
  if (!isFilling || run === undefined || step.hold === undefined) return undefined;
  const found = holdsOf({ procedure, interpretation: { kind: 'run', run } }, { step: step.id });
  if (found.kind === 'nothing') return `No estimate: ${plain(found.reason)}`;
  const [press] = found.holds.presses;
  if (press === undefined || found.holds.step !== step.id) return undefined;
  return page([
    ...estimated(press, step.hold, found.holds),
    picture(spoken(press, step.hold, found.holds), holdPicture(found.holds)),
    ...found.holds.missing.map(({ message, wakes }) => `${plain(message)} This would tell: ${code(wakes)}`),
    '_An estimate from datasheets and assumptions, never an instruction. The gap counts squared, and nobody knows it._',
  ]);
}

function estimated(press: PressShown, hold: Span, holds: Holds): readonly (string | undefined)[] {
  const ways = press.against.flatMap((against) => {
    const need = holds.needs[against.need];
    return need === undefined ? [] : [{ against, need }];
  });
  const [only] = ways;
  if (only !== undefined && ways.length === 1) {
    const { against, need } = only;
    const told = `${plain(need.resin.label)} needs ${needWords(need, holds)}`;
    return [
      `Estimated: ${told}; the hold is ${plain(spanWords(hold))}: ${verdict(against)} (${plain(assumed(need))} assumed)${doubted(need)}.`,
    ];
  }
  const entries = ways.map(({ against, need }) => {
    const where = need.circumstance === 'always' ? '' : ` when ${code(need.circumstance)}`;
    const told = `${plain(need.resin.label)}${where} needs ${needWords(need, holds)}`;
    return `${told}: ${verdict(against)} (${plain(assumed(need))})${doubted(need)}`;
  });
  return [list(`Estimated beside the hold of ${plain(spanWords(hold))}, with gap and leg as assumed:`, entries)];
}

/** `about 46 s at 5 °C, 20 s at 20 °C`. */
function needWords(need: Need, holds: Holds): string {
  const points = need.parts.flatMap((part) => part.points);
  const ends = [points[0], points.at(-1)].filter((one) => one !== undefined);
  const said = ends.map(({ temperature, seconds }) => `${timeSaid(seconds)} at ${temperatureSaid(temperature, holds)}`);
  return said.length === 0 ? 'an unknown time' : `about ${plain([...new Set(said)].join(', '))}`;
}

function verdict({ short, turn, isOutlasted }: Against): string {
  if (short === 'nowhere') return 'long enough for that';
  const where = short === 'everywhere' || turn === undefined ? 'at all of these temperatures' : `below ${turn.text}`;
  const asFar = turn === undefined || turn.isExact ? '' : ', as far as the datasheet tells';
  return `${plain(`too short ${where}${asFar}`)}${isOutlasted ? ', which a longer press of the job makes up for' : ''}`;
}

function assumed({ gap, length }: Need): string {
  return `gap ${gap}, leg ${length}`;
}

const doubtWords: Readonly<Record<Doubt, string>> = {
  'single-point': 'from a single viscosity',
  'single-point-colder': 'colder it needs longer than this',
  'single-point-warmer': 'warmer it needs less than this',
  'colder-than-data': 'in part colder than its datasheet',
  'warmer-than-data': 'in part warmer than its datasheet',
  'fits-loosely': 'the curve misses its datasheet by more than 5 %',
};

function doubted({ parts, untold }: Need): string {
  const doubts = [...new Set(parts.flatMap((part) => part.doubts))].map((doubt) => doubtWords[doubt]);
  const words = untold.length === 0 ? doubts : [...doubts, 'its datasheet does not tell all of it'];
  return words.length === 0 ? '' : `; ${words.join('; ')}`;
}

/** What the picture shows, for people who do not see it. */
function spoken(press: PressShown, hold: Span, holds: Holds): string {
  const needs = holds.needs.map((need) => `${need.resin.label} ${needWords(need, holds)}`);
  const turns = press.against.flatMap(({ turn, short }) => (short === 'nowhere' || !turn?.isExact ? [] : [turn.text]));
  const turning = turns.length === 0 ? '' : ` They cross at ${turns.join(' and ')}.`;
  return `Time needed against ${holds.reading.label}, the colder the longer: ${needs.join('; ')}. The hold of ${spanWords(hold)} is a band across.${turning}`;
}

function timeSaid(seconds: number): string {
  return seconds < 10 ? `${Number(seconds.toPrecision(2))} s` : spokenDuration(Math.ceil(seconds));
}

function temperatureSaid(kelvin: number, { reading: { unit } }: Holds): string {
  return `${Number((kelvin / unit.factor - unit.offset).toFixed(1))} ${unit.name}`;
}
