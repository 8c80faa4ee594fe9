import { spokenDuration } from '@quarrel/model';
import { assumedLines, testsOfLines } from '../../process/assumed.js';
import { openTimeOf } from '../../process/datasheet.js';
import { everInHand } from '../../process/in-hand.js';
import { openingsOf } from '../../process/openings.js';
import { settingsAt } from '../../process/settings.js';
import { noActs, nothingAssumed } from '../../process/silence.js';
import type { ProcessRule } from '../../rule.js';
import { isSomewhere, union } from '../../work.js';

/** Resin stands open in the light for longer than its datasheet allows before it is pressed in. */
export const openTooLong: ProcessRule = {
  name: 'open-too-long',
  family: 'process',
  severity: 'warning',
  title: 'Resin can stand open in the light for too long',
  *turns({ procedure }) {
    yield* testsOfLines(assumedLines(procedure, 'opening', 'irradiance'));
  },
  *silences(unrun) {
    yield* noActs(unrun.procedure, 'opening');
    yield* noActs(unrun.procedure, 'filling');
    yield* nothingAssumed(unrun.procedure, 'opening', 'irradiance 1 mW/cm²');
    for (const { name, range } of everInHand('resin', unrun).filter((resin) => openTimeOf(resin) === undefined)) {
      yield {
        message: `The datasheet of "${name}" has no line "open-time".`,
        wakes: 'open-time 4 min under 1 mW/cm²',
        range,
      };
    }
  },
  *run(work) {
    const { store } = work.run.situations;
    for (const [index, { resin, light, seconds, asked }] of openingsOf(work).entries()) {
      const { response } = asked;
      const question = work.asked.openings + index;
      for (const [number, step] of work.steps.entries()) {
        const acts = (work.run.steps[number]?.acts ?? []).filter(({ act }) => act === response);
        const late = union(
          work,
          acts.flatMap((act) => act.late.filter((one) => one.response === question).map(({ region }) => region)),
        );
        const settings = settingsAt(number, ['resin'], 'opening', ['irradiance'], work);
        const there = union(
          work,
          settings
            .filter(({ hands, values }) => hands[0]?.includes(resin) === true && values[0]?.si === light.si)
            .map(({ region }) => region),
        );
        const region = store.and(late, there);
        if (!isSomewhere(work, region)) continue;
        yield {
          range: step.effects.find((effect) => effect.kind === 'act' && effect.act === response)?.range ?? step.range,
          message: `"${resin.name}" can stand open for longer than ${spokenDuration(seconds)} before it is pressed in, under ${light.text}.`,
          because:
            'An estimate: the light it stands in times the time, held against the datasheet. The light is assumed. Resin that begins to gel no longer runs to the ends of the legs.',
          source: `the datasheet of ${resin.label}; docs/process.md`,
          advice: 'Load the resin later, take fresh resin, or shade the injector.',
          related: [
            { message: `the datasheet of "${resin.name}"`, range: resin.range },
            { message: 'the light that is assumed', range: light.range },
          ],
          step: number,
          where: { region, reached: work.run.steps[number]?.before.reached ?? region, before: number },
        };
      }
    }
  },
};
