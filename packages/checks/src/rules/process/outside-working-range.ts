import type { Quantity, Reading, SourceRange, Test, Thing } from '@quarrel/model';
import { glassReading } from '../../process/assumed.js';
import { worksOf } from '../../process/datasheet.js';
import { everInHand } from '../../process/in-hand.js';
import type { ProcessRule } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** A resin is taken in hand at glass temperatures at which its datasheet says that it does not work. */
export const outsideWorkingRange: ProcessRule = {
  name: 'outside-working-range',
  family: 'process',
  severity: 'error',
  title: 'A resin is used outside of the temperatures of its datasheet',
  *turns(work) {
    const reading = glassReading(work.procedure);
    if (reading === undefined) return;
    for (const resin of everInHand('resin', work)) {
      const works = worksTest(resin, reading);
      if (works !== undefined) yield works;
    }
  },
  *silences(work) {
    if (glassReading(work.procedure) === undefined) {
      yield { message: 'No sheet says which reading is the temperature of the glass.', wakes: 'assume glass { temperature READING }' };
      return;
    }
    for (const resin of everInHand('resin', work)) {
      if (worksOf(resin) !== undefined) continue;
      yield { message: `The datasheet of "${resin.name}" has no line "works".`, wakes: 'works from 5 °C to 35 °C', range: resin.range };
    }
  },
  *run(work) {
    const { procedure, run, steps } = work;
    const reading = glassReading(procedure);
    if (reading === undefined) return;
    const { situations } = run;
    for (const [number, step] of steps.entries()) {
      for (const record of run.steps[number]?.things ?? []) {
        for (const { value: name, region } of situations.values(record.thing, record.reached)) {
          const resin = procedure.vocabulary.things.find((thing) => thing.name === name && thing.kind === 'resin');
          const works = resin === undefined ? undefined : worksTest(resin, reading);
          if (resin === undefined || works === undefined) continue;
          const outside = situations.store.and(region, situations.region(works).fails);
          if (!isSomewhere(work, outside)) continue;
          yield {
            range: (step.effects[record.effect] ?? step).range,
            message: `"${resin.name}" works ${spanWords(works)}, but here the glass can be ${sideWords(works, outside, work)}.`,
            because: 'Outside of its range a resin stays too thick to fill the break, or gels before it has.',
            source: `the datasheet of ${resin.label}`,
            advice: `Choose another resin for these temperatures, or bring the glass to ${spanWords(works)} first.`,
            related: [{ message: 'its datasheet', range: datasheetRange(resin) }],
            step: number,
            where: { region: outside, reached: record.reached, before: number },
          };
        }
      }
    }
  },
};
