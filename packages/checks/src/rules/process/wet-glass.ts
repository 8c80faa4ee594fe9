import type { Region } from '@quarrel/analysis';
import type { Procedure, Quantity, Reading, Test } from '@quarrel/model';
import { type Answer, type Kelvin, si, wetBelow } from '@quarrel/process';
import { amountOf, assumedLines, excludeEachOther, glassReading, testsOfLines } from '../../process/assumed.js';
import { fillingSteps } from '../../process/fills.js';
import { assumptionsAbout } from '../../process/settings.js';
import { isIdle, noActs, noGlassReading, nothingAssumed, unusable } from '../../process/silence.js';
import { colderInWords, colderThan } from '../../process/temperature.js';
import { untold } from '../../process/untold.js';
import type { ProcessRule, Unrun, Work } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** Resin goes into a break while the glass is so cold that water of the air settles on it. */
export const wetGlass: ProcessRule = {
  name: 'wet-glass',
  family: 'process',
  severity: 'warning',
  title: 'The glass can be colder than the dew point when resin goes in',
  *turns(unrun) {
    const { procedure } = unrun;
    const reading = glassReading(procedure);
    if (reading === undefined || fillingSteps(unrun).length === 0) return;
    for (const property of properties) yield* testsOfLines(assumedLines(procedure, 'air', property));
    for (const { temperature, humidity } of airsOf(unrun)) {
      const wet = wetWhere(temperature, humidity, reading, procedure);
      if (wet !== undefined) yield wet;
    }
  },
  *silences(unrun) {
    const { procedure } = unrun;
    if (isIdle(unrun, 'filling')) return;
    yield* noGlassReading(procedure);
    yield* noActs(procedure, 'filling');
    yield* nothingAssumed(procedure, 'air', examples.temperature);
    yield* nothingAssumed(procedure, 'air', examples.humidity);
    for (const { temperature, humidity } of airsOf(unrun)) {
      yield* unusable(wetPoint(temperature, humidity), examples, examples.humidity, humidity.range);
    }
  },
  *run(work) {
    const wets = wetsOf(work);
    const told = untold(work);
    for (const { step, number } of wets.length === 0 ? [] : fillingSteps(work)) {
      const reached = work.run.steps[number]?.before.reached ?? work.run.situations.store.nowhere;
      for (const { test, temperature, humidity, region } of wets) {
        const cold = told.leaves('the air', work.run.situations.store.and(reached, region), number);
        if (!isSomewhere(work, cold)) continue;
        const dry = test.kind === 'compare' ? ` to ${test.quantity.text} or more` : '';
        yield {
          range: step.range,
          message: `${colderInWords(test)} water settles on the glass in air of ${temperature.text} and ${humidity.text} humidity, and here resin goes in.`,
          because:
            'Water keeps resin out of the legs. An estimate: dew point of the air, over ice below freezing; the air is assumed.',
          source: 'saturation pressure after Sonntag 1994 (Meteorol. Z. 3:51); docs/process.md',
          advice: `Warm the glass${dry} before filling, or stop in these situations.`,
          related: [{ message: 'the air that is assumed', range: temperature.range }],
          step: number,
          where: { region: cold, reached, before: number },
        };
      }
    }
  },
};

/** An air, and where the glass is so cold in it that water settles. */
interface Wet {
  readonly test: Test;
  readonly temperature: Quantity;
  readonly humidity: Quantity;
  readonly region: Region;
}

function wetsOf(work: Work): readonly Wet[] {
  const reading = glassReading(work.procedure);
  if (reading === undefined) return [];
  const { situations } = work.run;
  return assumptionsAbout('air', properties, work).flatMap(({ region, values: [temperature, humidity] }) => {
    const test = wetWhere(temperature, humidity, reading, work.procedure);
    if (test === undefined || temperature === undefined || humidity === undefined) return [];
    return [{ test, temperature, humidity, region: situations.store.and(region, situations.region(test).holds) }];
  });
}

const properties = ['temperature', 'humidity'] as const;

/** Lines that the estimate can use, by what they tell. */
const examples = { temperature: 'temperature 20 °C', humidity: 'humidity 60 %' };

/** Every temperature of the air with every humidity that can be assumed beside it. */
function airsOf({ procedure }: Unrun): readonly { readonly temperature: Quantity; readonly humidity: Quantity }[] {
  const humidities = assumedLines(procedure, 'air', 'humidity');
  return assumedLines(procedure, 'air', 'temperature').flatMap((warm) =>
    humidities.flatMap((humid) => {
      const [temperature, humidity] = [amountOf(warm), amountOf(humid)];
      const isNone = temperature === undefined || humidity === undefined || excludeEachOther(warm, humid);
      return isNone ? [] : [{ temperature, humidity }];
    }),
  );
}

/** The temperature of the glass below which water settles on it. */
function wetPoint(temperature: Quantity | undefined, humidity: Quantity | undefined): Answer<Kelvin> | undefined {
  if (temperature === undefined || humidity === undefined) return undefined;
  return wetBelow({ temperature: si(temperature.si, 'temperature'), humidity: si(humidity.si, 'ratio') });
}

/** The glass temperatures at which water settles on it, as far as they are covered. */
function wetWhere(
  temperature: Quantity | undefined,
  humidity: Quantity | undefined,
  reading: Reading,
  procedure: Procedure,
): Test | undefined {
  const point = wetPoint(temperature, humidity);
  return point?.kind === 'value' ? colderThan(point.value, reading, procedure) : undefined;
}
