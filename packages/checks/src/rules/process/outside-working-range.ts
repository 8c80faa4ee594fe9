import type { Reading, Test, Thing } from '@quarrel/model';
import { glassReading } from '../../process/assumed.js';
import { worksOf } from '../../process/datasheet.js';
import { everInHand } from '../../process/in-hand.js';
import { missingOn, noGlassReading } from '../../process/silence.js';
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
    for (const resin of everInHand('resin', unrun)) yield* sidesOf(resin, reading);
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
        for (const { value: name, region: taken } of situations.values(record.thing, record.reached)) {
          const resin = procedure.vocabulary.things.find((thing) => thing.name === name && thing.kind === 'resin');
          for (const side of resin === undefined ? [] : sidesOf(resin, reading)) {
            const region = situations.store.and(taken, situations.region(side).holds);
            if (!isSomewhere(work, region)) continue;
            yield {
              range: (step.effects[record.effect] ?? step).range,
              message: `"${name}" works ${sideWords(side)}.`,
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

/** Where the glass is too cold for a resin, and where it is too warm. */
function sidesOf(resin: Thing, reading: Reading): readonly Test[] {
  const works = worksOf(resin);
  const side = (comparison: 'below' | 'above', end: 'least' | 'most'): Test[] => {
    const quantity = works?.[end];
    if (quantity === undefined) return [];
    return [{ kind: 'compare', subject: reading.name, comparison, quantity, range: reading.range }];
  };
  return [...side('below', 'least'), ...side('above', 'most')];
}

function sideWords(side: Test): string {
  if (side.kind !== 'compare') return '';
  return side.comparison === 'below'
    ? `from ${side.quantity.text} up, and here the glass can be colder`
    : `up to ${side.quantity.text}, and here the glass can be warmer`;
}
