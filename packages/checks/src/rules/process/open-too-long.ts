import { type Quantity, spokenDuration, type Thing } from '@quarrel/model';
import { amountOf, assumedLines, testsOfLines } from '../../process/assumed.js';
import { openTimeOf } from '../../process/datasheet.js';
import { everInHand } from '../../process/in-hand.js';
import { openingsOf, openUnder } from '../../process/openings.js';
import { settingsAt } from '../../process/settings.js';
import { isIdle, missingOn, noActs, nothingAssumed, unusable } from '../../process/silence.js';
import type { ProcessRule } from '../../rule.js';
import { isSomewhere, union } from '../../work.js';

/** Lines that the estimate can use, by what they tell. */
const examples = {
  irradiance: 'irradiance 1 mW/cm²',
  time: 'open-time 4 min under 1 mW/cm²',
};

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
    const { procedure } = unrun;
    if (isIdle(unrun, 'opening') || isIdle(unrun, 'filling')) return;
    yield* noActs(procedure, 'opening');
    yield* noActs(procedure, 'filling');
    yield* nothingAssumed(procedure, 'opening', examples.irradiance);
    yield* missingOn('resin', unrun, examples.time, (resin) => openTimeOf(resin) !== undefined);
    for (const resin of everInHand('resin', unrun)) {
      for (const line of assumedLines(procedure, 'opening', 'irradiance')) {
        yield* unusable(openUnder(resin, amountOf(line)), examples, examples.time, line.range);
      }
    }
  },
  *run(work) {
    const { store } = work.run.situations;
    for (const [index, { resin, light, seconds, asked }] of openingsOf(work).entries()) {
      const { response } = asked;
      const question = work.asked.openings + index;
      for (const [number, step] of work.steps.entries()) {
        const acts = (work.run.steps[number]?.acts ?? []).filter(
          ({ act, late }) => act === response && late.length > 0,
        );
        if (acts.length === 0) continue;
        const late = union(
          work,
          acts.flatMap((act) => act.late.filter((one) => one.response === question).map(({ region }) => region)),
        );
        if (!isSomewhere(work, late)) continue;
        const there = union(
          work,
          settingsAt(number, ['resin'], 'opening', ['irradiance'], work)
            .filter(({ hands, values }) => hands[0]?.includes(resin) === true && values[0]?.si === light.si)
            .map(({ region }) => region),
        );
        const region = store.and(late, there);
        if (!isSomewhere(work, region)) continue;
        yield {
          range: step.effects.find((effect) => effect.kind === 'act' && effect.act === response)?.range ?? step.range,
          message: `"${resin.name}" can stand open for longer than ${shownSeconds(seconds)} before it is pressed in, under ${light.text}.`,
          because: `An estimate: the light it stands in times the time, held against the datasheet. The light is assumed.${farWords(resin, light)} Resin that begins to gel no longer runs to the ends of the legs.`,
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

/** Rounded down, so that no more is claimed than was computed. */
function shownSeconds(seconds: number): string {
  return spokenDuration(seconds < 10 ? Math.floor(seconds * 1000) / 1000 : Math.floor(seconds));
}

/** Light and time can be traded for each other near the light of the datasheet only. */
function farWords(resin: Thing, light: Quantity): string {
  const under = openTimeOf(resin)?.under ?? light.si;
  const isFar = light.si > 10 * under || under > 10 * light.si;
  return isFar
    ? ' It is more than ten times off the light of the datasheet, so take it for an order of magnitude.'
    : '';
}
