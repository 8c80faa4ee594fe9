import { type Quantity, type Step, spokenDuration } from '@quarrel/model';
import { differenceOf, lagOf, timeToChange, usualPane } from '@quarrel/process';
import { heldAtLeast } from '../../mends/hold.js';
import { actsDuring, assumedLines, testsOfLines } from '../../process/assumed.js';
import { settingsAt } from '../../process/settings.js';
import { noActs, nothingAssumed } from '../../process/silence.js';
import type { ProcessRule } from '../../rule.js';
import { isSomewhere } from '../../work.js';

const properties = ['change', 'allowed'] as const;

/** Glass is warmed or cooled by so much in so short a time that its faces differ by more than is allowed. */
export const heatedTooFast: ProcessRule = {
  name: 'heated-too-fast',
  family: 'process',
  severity: 'warning',
  title: 'Glass is warmed or cooled faster than its faces can follow',
  *turns({ procedure }) {
    for (const property of properties) yield* testsOfLines(assumedLines(procedure, 'warming', property));
  },
  *silences({ procedure }) {
    yield* noActs(procedure, 'warming');
    yield* nothingAssumed(procedure, 'warming', 'change 15 K');
    yield* nothingAssumed(procedure, 'warming', 'allowed 40 K');
  },
  *run(work) {
    const acts = actsDuring(work.procedure, 'warming');
    for (const [number, step] of work.steps.entries()) {
      if (!step.effects.some((effect) => effect.kind === 'act' && acts.has(effect.act))) continue;
      for (const { region, values } of settingsAt(number, [], 'warming', properties, work)) {
        const [change, allowed] = values;
        const need = change === undefined || allowed === undefined ? undefined : secondsFor(change, allowed);
        if (change === undefined || allowed === undefined || need === undefined) continue;
        if (need <= spentIn(step) || !isSomewhere(work, region)) continue;
        const asked = Math.ceil(need);
        yield {
          range: step.hold?.range ?? step.range,
          message: `A change of ${change.text} within ${spokenDuration(spentIn(step))} can leave more than ${allowed.text} between the faces of the glass; it wants at least ${spokenDuration(asked)}.`,
          because:
            'An estimate: one face warmed at a steady pace, through two plies of 2.1 mm and the film between. Cracked glass bears far less than sound glass.',
          source: 'heat conduction through a plate; EN 572-1 for sound annealed glass; docs/process.md',
          advice: `Take at least ${spokenDuration(asked)} for it.`,
          related: [{ message: 'the change that is assumed', range: change.range }],
          mends: () =>
            heldAtLeast(step, {
              dimension: 'time',
              si: asked,
              text: spokenDuration(asked),
              unit: 's',
              range: step.range,
            }),
          step: number,
          where: { region, reached: work.run.steps[number]?.before.reached ?? region, before: number },
        };
      }
    }
  },
};

/** The least time that a step takes, hands on and waiting. */
function spentIn({ takes, hold }: Step): number {
  return (takes?.least?.si ?? 0) + (hold?.least?.si ?? 0);
}

function secondsFor(change: Quantity, allowed: Quantity): number | undefined {
  const [by, most, lag] = [differenceOf(change), differenceOf(allowed), lagOf(usualPane)];
  if (by.kind !== 'value' || most.kind !== 'value' || lag.kind !== 'value') return undefined;
  const time = timeToChange(by.value, most.value, lag.value);
  return time.kind === 'value' ? time.value : undefined;
}
