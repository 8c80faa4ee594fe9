import { formatSi, type Quantity, type Thing } from '@quarrel/model';
import { altitudeOfPressure, pressureAtAltitude, si } from '@quarrel/process';
import { amountOf, assumedLines, testsOfLines } from '../../process/assumed.js';
import { gaugeVacuumOf } from '../../process/datasheet.js';
import { everInHand, takes } from '../../process/in-hand.js';
import { settingsAt } from '../../process/settings.js';
import { missingOn, nothingAssumed, unusable } from '../../process/silence.js';
import { untold } from '../../process/untold.js';
import type { ProcessRule, Unrun, Work } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** An injector is to draw a deeper vacuum than the air of the place allows. */
export const vacuumOutOfReach: ProcessRule = {
  name: 'vacuum-out-of-reach',
  family: 'process',
  severity: 'warning',
  title: 'A vacuum is asked for that cannot be had at the altitude',
  *turns({ procedure }) {
    yield* testsOfLines(assumedLines(procedure, 'air', 'altitude'));
  },
  *silences(unrun) {
    yield* nothingAssumed(unrun.procedure, 'air', 'altitude 500 m');
    yield* missingOn('injector', unrun, 'vacuum 85 kPa', givesVacuum);
    for (const line of assumedLines(unrun.procedure, 'air', 'altitude')) {
      const ambient = ambientAt(amountOf(line));
      yield* unusable(ambient, {}, 'altitude 500 m', line.range);
    }
  },
  *run(work) {
    if (!isTooDeepSomewhere(work)) return;
    const { store } = work.run.situations;
    const told = untold(work);
    for (const { number, taken, injector, region, reached } of takenInjectors(work)) {
      const vacuum = gaugeVacuumOf(injector);
      for (const { region: there, values } of settingsAt(number, [], 'air', ['altitude'], work)) {
        const [altitude] = values;
        const ambient = ambientAt(altitude);
        if (vacuum === undefined || altitude === undefined || ambient?.kind !== 'value') continue;
        if (vacuum.si <= ambient.value) continue;
        const left = told.leaves(injector.name, store.and(region, there), number);
        if (!isSomewhere(work, left)) continue;
        yield {
          range: taken,
          message: `"${injector.name}" draws ${vacuum.text}, but at ${altitude.text} the air has only ${roundly(ambient.value, vacuum.unit)}.${reachOf(vacuum)}`,
          because:
            'A vacuum is never deeper than the pressure of the air around it. The weather moves that by about 3 kPa.',
          source: 'ISO 2533:1975, standard atmosphere; docs/process.md',
          advice: 'Write the vacuum that can be had at this altitude, or as a share of the air, such as "vacuum 85 %".',
          related: [
            { message: `the datasheet of "${injector.name}"`, range: injector.range },
            { message: 'the altitude that is assumed', range: altitude.range },
          ],
          step: number,
          where: { region: left, reached, before: number },
        };
      }
    }
  },
};

/** In whatever way: a share of the air can be had everywhere. */
function givesVacuum({ properties }: Thing): boolean {
  return properties.some(({ name }) => name === 'vacuum');
}

/** Whether some injector is to draw more than the air has at the highest place that is assumed, whatever the situation. */
function isTooDeepSomewhere(unrun: Unrun): boolean {
  const ambients = assumedLines(unrun.procedure, 'air', 'altitude').flatMap((line) => {
    const ambient = ambientAt(amountOf(line));
    return ambient?.kind === 'value' ? [ambient.value] : [];
  });
  const thinnest = Math.min(...ambients);
  return everInHand('injector', unrun).some((injector) => (gaugeVacuumOf(injector)?.si ?? 0) > thinnest);
}

/** Every injector that some step takes in hand, where it does. */
function takenInjectors({ steps, run, procedure }: Work) {
  return steps.flatMap((step, number) =>
    (run.steps[number]?.things ?? [])
      .filter(({ effect }) => takes(step.effects[effect], 'injector', procedure))
      .flatMap(({ effect, reached, thing }) =>
        run.situations.values(thing, reached).flatMap(({ value: name, region }) => {
          const injector = procedure.vocabulary.things.find((one) => one.name === name && one.kind === 'injector');
          const taken = (step.effects[effect] ?? step).range;
          return injector === undefined ? [] : [{ number, taken, injector, region, reached }];
        }),
      ),
  );
}

/** The pressure of the air at an altitude. */
function ambientAt(altitude: Quantity | undefined) {
  return altitude === undefined ? undefined : pressureAtAltitude(si(altitude.si, 'length'));
}

function reachOf(vacuum: Quantity): string {
  const highest = altitudeOfPressure(si(vacuum.si, 'pressure'));
  if (highest.kind !== 'value') return '';
  return highest.value < 0
    ? ' It cannot be had at sea level either.'
    : ` It can be had up to ${Math.floor(highest.value)} m.`;
}

/** A pressure in a unit, to three digits. */
function roundly(pascal: number, unit: string): string {
  const [number = '', ...rest] = formatSi(pascal, unit).split(' ');
  return `about ${Number(Number(number).toPrecision(3))} ${rest.join(' ')}`;
}
