import type { Region } from '@quarrel/analysis';
import { type Quantity, type Reading, type Step, spokenDuration, type Test } from '@quarrel/model';
import { heldAtLeast } from '../../mends/hold.js';
import { splitByTemperature } from '../../mends/split.js';
import { assumedLines, glassReading } from '../../process/assumed.js';
import { caveatsInWords } from '../../process/caveats.js';
import { curveOf, pressureOf } from '../../process/datasheet.js';
import {
  assumptionTests,
  type Fill,
  fillingSteps,
  fillsAt,
  fillsOf,
  heldFor,
  needAt,
  timeToFill,
  tooColdFor,
} from '../../process/fills.js';
import { outlasted } from '../../process/longest.js';
import { isIdle, missingOn, noActs, noGlassReading, nothingAssumed, unusable } from '../../process/silence.js';
import { colderInWords, coldestIn } from '../../process/temperature.js';
import type { Draft, ProcessRule, Silence, Unrun, Work } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** Resin is pressed in for a shorter time than it is estimated to need to the end of a leg. */
export const holdShorterThanFill: ProcessRule = {
  name: 'hold-shorter-than-fill',
  family: 'process',
  severity: 'warning',
  title: 'A hold under pressure is shorter than the fill is estimated to take',
  *turns(unrun) {
    const reading = glassReading(unrun.procedure);
    if (reading === undefined) return;
    yield* assumptionTests(unrun);
    const holds = new Set(fillingSteps(unrun).map(({ step }) => heldFor(step)));
    for (const fill of holds.size === 0 ? [] : fillsOf(unrun)) {
      for (const hold of holds) {
        const turn = tooColdFor(fill, hold, reading, unrun.procedure);
        if (turn !== undefined) yield turn;
      }
    }
  },
  silences: silencesOfFill,
  *run(work) {
    const reading = glassReading(work.procedure);
    if (reading === undefined) return;
    const { store } = work.run.situations;
    for (const { step, number } of fillingSteps(work)) {
      if (!isJudged(step, number, work)) continue;
      const judged = store.without(
        work.run.steps[number]?.before.reached ?? store.nowhere,
        outlasted(step, number, work),
      );
      for (const { fill, region } of fillsAt(number, work, judged)) {
        const turn = tooColdFor(fill, heldFor(step), reading, work.procedure);
        if (turn === undefined) continue;
        const cold = store.and(region, work.run.situations.region(turn).holds);
        if (isSomewhere(work, cold)) yield finding({ step, number, fill, turn, region: cold, reading }, work);
      }
    }
  },
};

function* silencesOfFill(unrun: Unrun): Iterable<Silence> {
  const { procedure } = unrun;
  if (isIdle(unrun, 'filling')) return;
  yield* noGlassReading(procedure);
  yield* noActs(procedure, 'filling');
  yield* nothingAssumed(procedure, 'filling', 'gap 3 µm');
  yield* nothingAssumed(procedure, 'filling', 'length 20 mm');
  yield* missingOn('resin', unrun, examples.viscosity, (resin) => curveOf(resin) !== undefined);
  if (assumedLines(procedure, 'filling', 'pressure').length === 0) {
    yield* missingOn('injector', unrun, examples.pressure, (injector) => pressureOf(injector) !== undefined);
  }
  for (const fill of fillsOf(unrun)) {
    const curve = curveOf(fill.resin);
    const time = curve?.kind === 'value' ? timeToFill(fill, curve.value.coldest) : curve;
    yield* unusable(time, examples, examples.viscosity, fill.resin.range);
  }
}

/** Lines that an estimate of a fill can use, by what they tell. */
const examples = {
  viscosity: 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C',
  pressure: 'pressure 200 kPa',
  'surface tension': 'surface-tension 33 mN/m',
  gap: 'gap 3 µm',
  length: 'length 20 mm',
};

/** Not a step whose hold cannot be read, nor one that surely lasts longer than its hold: another finding says so. */
function isJudged(step: Step, number: number, { run }: Work): boolean {
  return step.unreadHold === undefined && (run.steps[number]?.meanwhile?.least ?? 0) <= heldFor(step);
}

interface Short {
  readonly step: Step;
  readonly number: number;
  readonly fill: Fill;
  readonly turn: Test;
  /** Where the hold is too short. */
  readonly region: Region;
  readonly reading: Reading;
}

function finding({ step, number, fill, turn, region, reading }: Short, work: Work): Draft {
  const { resin, gap, length } = fill;
  const coldest = coldestIn(region, reading, work);
  const need = needAt(fill, coldest.si);
  const least = need === undefined ? undefined : durationOf(Math.ceil(need.seconds), step);
  const estimate =
    least === undefined
      ? ''
      : `; at ${coldest.text} that takes ${need?.isBound ? `${least.text} or more` : `about ${least.text}`}`;
  const where = turn.kind === 'compare' ? `below ${turn.quantity.text}` : 'there';
  return {
    range: step.hold?.range ?? step.range,
    message: `${colderInWords(turn)} ${holdInWords(step)} for "${resin.name}" to fill a leg of ${length.text}${estimate}.`,
    because: `An estimate: ${flowInWords(fill)}. Gap and length are assumed, and the gap counts squared.${caveatsInWords(need?.caveats ?? [])}`,
    source: 'plane Poiseuille flow behind a front (Washburn 1921); docs/process.md',
    advice: `${holdLonger(least, need?.isBound ?? true)} ${where}, or take a thinner resin there.`,
    related: [
      { message: `the datasheet of "${resin.name}"`, range: resin.range },
      { message: 'the gap that is assumed', range: gap.range },
    ],
    // A hold that is only known to be too short is no mend.
    mends: () =>
      least === undefined || need?.isBound !== false
        ? []
        : [...heldAtLeast(step, least), ...splitByTemperature({ step, number, turn, least, reading }, work)],
    step: number,
    where: { region, reached: work.run.steps[number]?.before.reached ?? region, before: number },
  };
}

function holdInWords({ hold }: Step): string {
  if (hold === undefined) return 'there is no hold';
  if (hold.least === undefined) return `the hold of at most ${hold.most?.text} can be too short`;
  return `the hold of ${hold.least.text} is too short`;
}

function flowInWords({ resin, gap, pressure }: Fill): string {
  const flow = `slow flow between plates ${gap.text} apart under ${pressure.text}`;
  return resin.properties.some(({ name }) => name === 'surface-tension')
    ? `${flow} and the pull of the gap`
    : `${flow}; the pull of the gap would help and is not counted, as the datasheet has no line "surface-tension"`;
}

function holdLonger(least: Quantity | undefined, isBound: boolean): string {
  if (least === undefined) return 'Hold longer';
  return isBound ? `Hold longer than ${least.text}` : `Hold at least ${least.text}`;
}

function durationOf(seconds: number, { range }: Step): Quantity {
  return { dimension: 'time', si: seconds, text: spokenDuration(seconds), unit: 's', range };
}
