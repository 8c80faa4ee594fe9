import { formatSi } from '@quarrel/model';
import { altitudeOfPressure, pressureAtAltitude, si } from '@quarrel/process';
import { assumedLines, testsOfLines } from '../../process/assumed.js';
import { gaugeVacuumOf } from '../../process/datasheet.js';
import { everInHand } from '../../process/in-hand.js';
import { settingsAt } from '../../process/settings.js';
import { nothingAssumed } from '../../process/silence.js';
import type { ProcessRule } from '../../rule.js';
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
    for (const { name, range } of everInHand('injector', unrun).filter((one) => gaugeVacuumOf(one) === undefined)) {
      yield { message: `The datasheet of "${name}" gives no vacuum as a pressure.`, wakes: 'vacuum 85 kPa', range };
    }
  },
  *run(work) {
    const told = new Set<string>();
    for (const [number, step] of work.steps.entries()) {
      const taken = step.effects.find((effect) => effect.kind === 'with');
      if (taken === undefined) continue;
      for (const { region, hands, values } of settingsAt(number, ['injector'], 'air', ['altitude'], work)) {
        const [altitude] = values;
        const ambient = altitude === undefined ? undefined : pressureAtAltitude(si(altitude.si, 'length'));
        if (altitude === undefined || ambient?.kind !== 'value' || !isSomewhere(work, region)) continue;
        for (const injector of hands[0] ?? []) {
          const vacuum = gaugeVacuumOf(injector);
          if (vacuum === undefined || vacuum.si <= ambient.value || told.has(injector.name)) continue;
          told.add(injector.name);
          const highest = altitudeOfPressure(si(vacuum.si, 'pressure'));
          const reach = highest.kind === 'value' ? ` It can be had up to ${Math.floor(highest.value)} m.` : '';
          yield {
            range: taken.range,
            message: `"${injector.name}" draws ${vacuum.text}, but at ${altitude.text} the air has only ${roundly(ambient.value, vacuum.unit)}.${reach}`,
            because:
              'A vacuum is never deeper than the pressure of the air around it. The weather moves that by about 3 kPa.',
            source: 'ISO 2533:1975, standard atmosphere; docs/process.md',
            advice:
              'Write the vacuum that can be had at this altitude, or as a share of the air, such as "vacuum 85 %".',
            related: [
              { message: `the datasheet of "${injector.name}"`, range: injector.range },
              { message: 'the altitude that is assumed', range: altitude.range },
            ],
            step: number,
            where: { region, reached: work.run.steps[number]?.before.reached ?? region, before: number },
          };
        }
      }
    }
  },
};

/** A pressure in a unit, to three digits. */
function roundly(pascal: number, unit: string): string {
  const [number = '', ...rest] = formatSi(pascal, unit).split(' ');
  return `about ${Number(Number(number).toPrecision(3))} ${rest.join(' ')}`;
}
