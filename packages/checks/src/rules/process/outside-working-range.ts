import type { Procedure, Quantity, Reading, Test, Thing } from '@quarrel/model';
import { glassReading } from '../../process/assumed.js';
import { worksOf } from '../../process/datasheet.js';
import { everInHand, takes } from '../../process/in-hand.js';
import { missingOn, noGlassReading } from '../../process/silence.js';
import { coveredEnds } from '../../process/temperature.js';
import type { ProcessRule } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** A resin is taken in hand at glass temperatures at which its datasheet says that it does not work. */
export const outsideWorkingRange: ProcessRule = {
  name: 'outside-working-range',
  family: 'process',
  severity: 'error',
  title: 'A resin is used outside of the temperatures of its datasheet',
  *turns(unrun) {
    const reading = glassReading(unrun.procedure);
    if (reading === undefined) return;
    for (const resin of everInHand('resin', unrun)) {
      yield* sidesOf(resin, reading, unrun.procedure).map(({ test }) => test);
    }
  },
  *silences(unrun) {
    yield* noGlassReading(unrun.procedure);
    yield* missingOn('resin', unrun, 'works from 5 °C to 35 °C', (resin) => worksOf(resin) !== undefined);
  },
  *run(work) {
    const { procedure, run, steps } = work;
    const { situations } = run;
    const reading = glassReading(procedure);
    if (reading === undefined) return;
    for (const [number, step] of steps.entries()) {
      for (const record of run.steps[number]?.things ?? []) {
        if (!takes(step.effects[record.effect], 'resin', procedure)) continue;
        for (const { value: name, region: taken } of situations.values(record.thing, record.reached)) {
          const resin = procedure.vocabulary.things.find((thing) => thing.name === name && thing.kind === 'resin');
          for (const { test, words } of resin === undefined ? [] : sidesOf(resin, reading, procedure)) {
            const region = situations.store.and(taken, situations.region(test).holds);
            if (!isSomewhere(work, region)) continue;
            yield {
              range: (step.effects[record.effect] ?? step).range,
              message: `"${name}" works ${words}.`,
              because: 'Outside of its range a resin stays too thick to fill the break, or gels before it has.',
              source: `the datasheet of ${resin?.label}`,
              advice: 'Take another resin in these situations, or bring the glass into its range first.',
              related: resin === undefined ? [] : [{ message: `the datasheet of "${name}"`, range: resin.range }],
              step: number,
              where: { region, reached: record.reached, before: number },
            };
          }
        }
      }
    }
  },
};

/** A part of the glass temperatures at which a resin does not work. */
interface Side {
  readonly test: Test;
  readonly words: string;
}

/** Where the glass is too cold for a resin, and where it is too warm, as far as it is covered. */
function sidesOf(resin: Thing, reading: Reading, procedure: Procedure): readonly Side[] {
  const { least, most } = worksOf(resin) ?? {};
  const { low, high } = coveredEnds(reading, procedure);
  const compared = (comparison: 'below' | 'above', quantity: Quantity): Test => ({
    kind: 'compare',
    subject: reading.name,
    comparison,
    quantity,
    range: reading.range,
  });
  return [
    ...(least === undefined || least.si <= low
      ? []
      : [{ test: compared('below', least), words: `from ${least.text} up, and here the glass can be colder` }]),
    ...(most === undefined || most.si >= high
      ? []
      : [{ test: compared('above', most), words: `up to ${most.text}, and here the glass can be warmer` }]),
  ];
}
