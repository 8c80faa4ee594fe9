import type { Region } from '@quarrel/analysis';
import { type Quantity, type Reading, type Step, spokenDuration } from '@quarrel/model';
import { heldAtLeast } from '../../mends/hold.js';
import { glassReading } from '../../process/assumed.js';
import { curveOf } from '../../process/datasheet.js';
import {
  assumptionTests,
  type Fill,
  fillingSteps,
  fillsAt,
  fillsOf,
  heldFor,
  outlasted,
  secondsToFill,
  tooColdFor,
} from '../../process/fills.js';
import { everInHand } from '../../process/in-hand.js';
import { noActs, noGlassReading, nothingAssumed } from '../../process/silence.js';
import { coldestIn } from '../../process/temperature.js';
import type { Draft, ProcessRule, Work } from '../../rule.js';
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
    for (const { fill, hold } of fillsOf(unrun)) {
      const turn = tooColdFor(fill, hold, reading);
      if (turn !== undefined) yield turn;
    }
  },
  *silences(unrun) {
    const { procedure } = unrun;
    yield* noGlassReading(procedure);
    yield* noActs(procedure, 'filling');
    yield* nothingAssumed(procedure, 'filling', 'gap 3 µm');
    yield* nothingAssumed(procedure, 'filling', 'length 20 mm');
    for (const resin of everInHand('resin', unrun)) {
      if (curveOf(resin) !== undefined) continue;
      const message = `The datasheet of "${resin.name}" has no line "viscosity".`;
      yield { message, wakes: 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C', range: resin.range };
    }
  },
  *run(work) {
    const reading = glassReading(work.procedure);
    if (reading === undefined) return;
    const { store } = work.run.situations;
    for (const { step, number } of fillingSteps(work)) {
      const judged = outlasted(step, number, work);
      for (const { fill, region } of fillsAt(number, work)) {
        const turn = tooColdFor(fill, heldFor(step), reading);
        if (turn === undefined || turn.kind !== 'compare') continue;
        const cold = store.and(store.without(region, judged), work.run.situations.region(turn).holds);
        if (isSomewhere(work, cold)) yield finding(step, number, fill, turn.quantity, cold, reading, work);
      }
    }
  },
};

function finding(
  step: Step,
  number: number,
  fill: Fill,
  turn: Quantity,
  region: Region,
  reading: Reading,
  work: Work,
): Draft {
  const coldest = coldestIn(region, reading, work);
  const seconds = secondsToFill(fill, coldest.si);
  const need = seconds === undefined ? undefined : Math.ceil(seconds);
  const hold = step.hold?.least === undefined ? 'there is no hold' : `the hold of ${step.hold.least.text} is too short`;
  const estimate = need === undefined ? '' : `; at ${coldest.text} that takes about ${spokenDuration(need)}`;
  return {
    range: step.hold?.range ?? step.range,
    message: `Below ${turn.text} ${hold} for "${fill.resin.name}" to fill a leg of ${fill.length.text}${estimate}.`,
    because: `An estimate: slow flow between plates ${fill.gap.text} apart under ${fill.pressure.text} and the pull of the gap. Gap and length are assumed, and the gap counts squared.`,
    source: 'plane Poiseuille flow behind a front (Washburn 1921); docs/process.md',
    advice:
      need === undefined
        ? `Hold longer below ${turn.text}, or take a thinner resin there.`
        : `Hold at least ${spokenDuration(need)} below ${turn.text}, or take a thinner resin there.`,
    related: [
      { message: `the datasheet of "${fill.resin.name}"`, range: fill.resin.range },
      { message: 'the gap that is assumed', range: fill.gap.range },
    ],
    mends: () => (need === undefined ? [] : heldAtLeast(step, { ...durationOf(need), range: turn.range })),
    step: number,
    where: { region, reached: work.run.steps[number]?.before.reached ?? region, before: number },
  };
}

function durationOf(seconds: number): Omit<Quantity, 'range'> {
  return { dimension: 'time', si: seconds, text: spokenDuration(seconds), unit: 's' };
}
