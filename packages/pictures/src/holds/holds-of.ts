import { Outgrown, type Region, type Run } from '@quarrel/analysis';
import { type Fill, glassReading, type Press, type Pressed, pressesOf, toldOf } from '@quarrel/checks';
import { type Procedure, type Reading, unitNamed } from '@quarrel/model';
import type { Nothing } from '../picked.js';
import type { Pictured } from '../pictured.js';
import { timesOfSpan } from '../times.js';
import { nothingCovered, tooTangled } from '../wording.js';
import { assumptionsBehind } from './assumptions.js';
import type { Against, Holds, HoldsQuestion, Need, PressShown } from './holds.js';
import { lineOf } from './line.js';
import { temperatureScale, timeScale } from './marks.js';
import { missingFor, noEstimate } from './missing.js';
import { around, stretchesIn, widened } from './stretches.js';

export type HoldsOf = { readonly kind: 'holds'; readonly holds: Holds } | Nothing;

/** Holds of the steps that press resin in, beside how long the resin is estimated to need at every temperature of the glass. */
export function holdsOf(
  { procedure, interpretation }: Pick<Pictured, 'procedure' | 'interpretation'>,
  question: HoldsQuestion,
): HoldsOf {
  if (interpretation.kind === 'too-tangled') return tooTangled(procedure, interpretation.conditions);
  const { run } = interpretation;
  if (run.covered === run.situations.store.nowhere) return nothingCovered(procedure);
  const reading = glassReading(procedure);
  if (reading === undefined) return noEstimate(procedure);
  try {
    return pictureOf(procedure, run, reading, question);
  } catch (error) {
    if (error instanceof Outgrown) return tooTangled(procedure, []);
    throw error;
  }
}

function pictureOf(procedure: Procedure, run: Run, reading: Reading, question: HoldsQuestion): HoldsOf {
  const { situations } = run;
  const all = pressesOf(procedure, run, reading).filter(({ reached }) => reached !== situations.store.nowhere);
  const asked = all.find(({ step }) => step.id === question.step);
  const presses = asked === undefined ? all : [asked];
  if (presses.length === 0) return noEstimate(procedure);
  const unit = unitOf(reading);
  const drawn = widened(around(presses.flatMap(({ reached }) => stretchesIn(reached, reading, situations))));
  const temperature = temperatureScale(drawn, unit);
  const legs = legsOf(presses, procedure, run, reading, temperature.marks);
  const needs = legs.map(({ need }) => need);
  if (needs.every(({ parts }) => parts.length === 0)) return noEstimate(procedure, presses);
  const shown = presses.map((press) => pressShown(press, legs, run, reading));
  return {
    kind: 'holds',
    holds: {
      procedure: { name: procedure.name, label: procedure.label, range: procedure.range },
      reading: { name: reading.name, label: reading.label, unit },
      scales: { temperature, time: timeScale(needs, shown) },
      steps: all.map(({ step }) => ({ name: step.id, label: step.text })),
      ...(asked === undefined ? {} : { step: asked.step.id }),
      needs,
      presses: shown,
      assumptions: assumptionsBehind(procedure, presses),
      missing: missingFor(presses),
    },
  };
}

/** A fill with what is told of it. */
interface Leg {
  readonly fill: Fill;
  readonly need: Need;
}

/** The fills of which something can be told, each once: resin by resin as they are declared, longer legs and finer gaps first. */
function legsOf(
  presses: readonly Press[],
  procedure: Procedure,
  run: Run,
  reading: Reading,
  marks: readonly number[],
): readonly Leg[] {
  const { situations } = run;
  const pressed = presses.flatMap(({ fills }) => fills);
  const reached = union(
    run,
    presses.map((press) => press.reached),
  );
  const place = ({ resin }: Fill): number => procedure.vocabulary.things.findIndex(({ name }) => name === resin.name);
  return pressed
    .map(({ fill }) => fill)
    .filter((fill, index, all) => all.findIndex((other) => isSame(fill, other)) === index)
    .sort((a, b) => place(a) - place(b) || b.length.si - a.length.si || a.gap.si - b.gap.si)
    .flatMap((fill): readonly Leg[] => {
      const told = toldOf(fill);
      if (told === undefined) return [];
      const same = pressed.filter((one) => isSame(one.fill, fill));
      const region = union(
        run,
        same.map((one) => one.region),
      );
      const { resin, gap, length, pressure } = fill;
      const need: Need = {
        resin: { name: resin.name, label: resin.label },
        range: resin.range,
        gap: gap.text,
        length: length.text,
        pressure: pressure.text,
        circumstance: situations.describe(region, reached),
        data: { low: told.coldest, high: told.warmest },
        ...lineOf(fill, told, stretchesIn(region, reading, situations), marks),
      };
      return [{ fill, need }];
    });
}

function union({ situations: { store } }: Run, regions: readonly Region[]): Region {
  return regions.reduce((a, b) => store.or(a, b), store.nowhere);
}

function isSame(one: Fill, other: Fill): boolean {
  return (
    one.resin.name === other.resin.name &&
    one.gap.si === other.gap.si &&
    one.length.si === other.length.si &&
    one.pressure.si === other.pressure.si
  );
}

function pressShown({ step, reached, fills }: Press, legs: readonly Leg[], run: Run, reading: Reading): PressShown {
  const { id, text, range, whole, hold } = step;
  return {
    id,
    text,
    range: whole ?? range,
    ...(hold === undefined ? {} : { hold: timesOfSpan(hold) }),
    done: stretchesIn(reached, reading, run.situations),
    against: legs.flatMap(({ fill }, need) => {
      // Lines that assume the same value in different situations make the same fill.
      const same = fills.filter((pressed) => isSame(pressed.fill, fill));
      return same.length === 0 ? [] : [againstOf(same, need, run, reading)];
    }),
  };
}

/** A hold beside a need; the fills are the same one in different situations. */
function againstOf(same: readonly Pressed[], need: number, run: Run, reading: Reading): Against {
  const { situations } = run;
  const region = union(
    run,
    same.map((one) => one.region),
  );
  const done = around(stretchesIn(region, reading, situations));
  const turns = same.flatMap(({ turn }) => turn ?? []);
  const short = union(
    run,
    turns.map((turn) => turn.short),
  );
  const [turn] = turns;
  const isShort = short !== situations.store.nowhere;
  return {
    need,
    done,
    short: !isShort ? 'nowhere' : short === region ? 'everywhere' : 'below',
    ...(turn?.shown === undefined ? {} : { turn: { at: turn.at, text: turn.shown.text, isExact: turn.isExact } }),
    isOutlasted: isShort && turns.every(({ isOutlasted }) => isOutlasted),
  };
}

function unitOf({ low }: Reading): Holds['reading']['unit'] {
  const unit = unitNamed(low.unit);
  return { name: low.unit, factor: unit?.factor ?? 1, offset: unit?.offset ?? 0 };
}
