import type { Quantity, Reading, Test } from '@quarrel/model';
import { si, wetBelow } from '@quarrel/process';
import { amountOf, assumedLines, glassReading, testsOfLines } from '../../process/assumed.js';
import { fillingSteps } from '../../process/fills.js';
import { settingsAt } from '../../process/settings.js';
import { noActs, noGlassReading, nothingAssumed } from '../../process/silence.js';
import { below, shownTemperature } from '../../process/temperature.js';
import type { ProcessRule } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** Resin goes into a break while the glass is so cold that water of the air settles on it. */
export const wetGlass: ProcessRule = {
  name: 'wet-glass',
  family: 'process',
  severity: 'warning',
  title: 'The glass can be colder than the dew point when resin goes in',
  *turns({ procedure }) {
    const reading = glassReading(procedure);
    if (reading === undefined) return;
    const [temperatures, humidities] = properties.map((property) => assumedLines(procedure, 'air', property));
    yield* testsOfLines([...(temperatures ?? []), ...(humidities ?? [])]);
    for (const temperature of temperatures ?? []) {
      for (const humidity of humidities ?? []) {
        const wet = wetWhere(amountOf(temperature), amountOf(humidity), reading);
        if (wet !== undefined) yield wet;
      }
    }
  },
  *silences({ procedure }) {
    yield* noGlassReading(procedure);
    yield* noActs(procedure, 'filling');
    yield* nothingAssumed(procedure, 'air', 'temperature 20 °C');
    yield* nothingAssumed(procedure, 'air', 'humidity 60 %');
  },
  *run(work) {
    const reading = glassReading(work.procedure);
    const [first] = fillingSteps(work);
    if (reading === undefined || first === undefined) return;
    const { situations } = work.run;
    const reached = work.run.steps[first.number]?.before.reached;
    for (const { region, values } of settingsAt(first.number, [], 'air', properties, work)) {
      const [temperature, humidity] = values;
      const wet = wetWhere(temperature, humidity, reading);
      if (wet?.kind !== 'compare' || temperature === undefined || humidity === undefined) continue;
      const cold = situations.store.and(region, situations.region(wet).holds);
      if (!isSomewhere(work, cold)) continue;
      yield {
        range: first.step.range,
        message: `Below ${wet.quantity.text} water settles on the glass in air of ${temperature.text} and ${humidity.text} humidity, and here resin goes in.`,
        because:
          'Water keeps resin out of the legs. An estimate: dew point of the air, over ice below freezing; the air is assumed.',
        source: 'saturation pressure after Sonntag 1994 (Meteorol. Z. 3:51); docs/process.md',
        advice: `Warm the glass to ${wet.quantity.text} or more before filling, or stop below that.`,
        related: [{ message: 'the air that is assumed', range: temperature.range }],
        step: first.number,
        where: { region: cold, reached: reached ?? region, before: first.number },
      };
    }
  },
};

const properties = ['temperature', 'humidity'] as const;

/** The glass temperatures at which water settles; nothing where it does at none that the reading shows. */
function wetWhere(
  temperature: Quantity | undefined,
  humidity: Quantity | undefined,
  reading: Reading,
): Test | undefined {
  if (temperature === undefined || humidity === undefined) return undefined;
  const turn = wetBelow({ temperature: si(temperature.si, 'temperature'), humidity: si(humidity.si, 'ratio') });
  const shown = turn.kind === 'value' ? shownTemperature(turn.value, reading) : undefined;
  return shown === undefined ? undefined : below(reading, shown);
}
