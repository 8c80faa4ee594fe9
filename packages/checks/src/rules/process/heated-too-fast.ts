import { type Quantity, type Step, spokenDuration } from '@quarrel/model';
import { type Answer, differenceOf, lagOf, type Second, timeToChange, usualPane, whenKnown } from '@quarrel/process';
import { heldAtLeast } from '../../mends/hold.js';
import { actsDuring, amountOf, assumedLines, testsOfLines } from '../../process/assumed.js';
import { caveatsInWords } from '../../process/caveats.js';
import { settingsAt } from '../../process/settings.js';
import { isIdle, noActs, nothingAssumed, unusable } from '../../process/silence.js';
import type { Draft, ProcessRule, Unrun, Where, Work } from '../../rule.js';
import { isSomewhere } from '../../work.js';

const properties = ['change', 'allowed'] as const;

/**
 * Glass is warmed or cooled by so much in so short a time that its faces differ by more than is allowed, or by more than one part
 * of it may differ from the rest.
 */
export const heatedTooFast: ProcessRule = {
  name: 'heated-too-fast',
  family: 'process',
  severity: 'warning',
  title: 'Glass is warmed or cooled faster than its faces can follow',
  *turns({ procedure }) {
    for (const property of properties) yield* testsOfLines(assumedLines(procedure, 'warming', property));
  },
  *silences(unrun) {
    const { procedure } = unrun;
    if (isIdle(unrun, 'warming')) return;
    yield* noActs(procedure, 'warming');
    yield* nothingAssumed(procedure, 'warming', examples.change);
    yield* nothingAssumed(procedure, 'warming', examples['allowed difference']);
    const allowances = assumedLines(procedure, 'warming', 'allowed');
    for (const change of assumedLines(procedure, 'warming', 'change')) {
      for (const allowed of allowances) {
        yield* unusable(timeFor(amountOf(change), amountOf(allowed)), examples, examples.change, change.range);
      }
    }
  },
  *run(work) {
    const longest = longestOf(work);
    for (const { step, number } of warmingSteps(work)) {
      if (spentIn(step, number, work) >= longest) continue;
      const reached = work.run.steps[number]?.before.reached;
      for (const { region, values } of settingsAt(number, [], 'warming', properties, work)) {
        const [change, allowed] = values;
        const need = timeFor(change, allowed);
        if (change === undefined || allowed === undefined || need?.kind !== 'value' || !isSomewhere(work, region))
          continue;
        const at = { step, number, change, allowed, where: { region, reached: reached ?? region, before: number } };
        const spent = spentIn(step, number, work);
        if (need.value > spent) yield tooFast(at, spent, need.value, caveatsInWords(need.caveats));
        if (need.caveats.includes('only-as-a-whole')) yield onlyAsAWhole(at);
      }
    }
  },
};

/** Lines that the estimate can use, by what they tell. */
const examples = { change: 'change 15 K', 'allowed difference': 'allowed 40 K' };

/** A warming, and what is assumed of it. */
interface Warming {
  readonly step: Step;
  readonly number: number;
  readonly change: Quantity;
  readonly allowed: Quantity;
  readonly where: Where;
}

function tooFast(
  { step, number, change, allowed, where }: Warming,
  spent: number,
  need: number,
  caveats: string,
): Draft {
  const asked = Math.ceil(need);
  const least: Quantity = { dimension: 'time', si: asked, text: spokenDuration(asked), unit: 's', range: step.range };
  return {
    range: step.hold?.range ?? step.range,
    message: `A change of ${change.text} within ${spokenDuration(spent)} can leave more than ${allowed.text} between the faces of the glass; it wants at least ${least.text}.`,
    because: `An estimate: one face warmed at a steady pace, through two plies of 2.1 mm and the film between. Cracked glass bears far less than sound glass.${caveats}`,
    source: 'heat conduction through a plate; EN 572-1 for sound annealed glass; docs/process.md',
    advice: `Take at least ${least.text} for it.`,
    related: [{ message: 'the change that is assumed', range: change.range }],
    mends: () => heldAtLeast(step, least),
    step: number,
    where,
  };
}

function onlyAsAWhole({ step, number, change, allowed, where }: Warming): Draft {
  return {
    range: step.range,
    message: `A change of ${change.text}, done to one part of the glass, leaves more than ${allowed.text} between it and the rest, however slowly.`,
    because: 'An estimate: glass hardly carries warmth along the pane. Cracked glass bears far less than sound glass.',
    source: 'heat conduction through a plate; EN 572-1 for sound annealed glass; docs/process.md',
    advice: 'Warm or cool the whole area, or change it by less at a time.',
    related: [
      { message: 'the change that is assumed', range: change.range },
      { message: 'the difference that is allowed', range: allowed.range },
    ],
    step: number,
    where,
  };
}

function warmingSteps({ procedure, steps }: Unrun): readonly { readonly step: Step; readonly number: number }[] {
  const acts = actsDuring(procedure, 'warming');
  return steps.flatMap((step, number) =>
    step.unreadHold === undefined && step.effects.some((effect) => effect.kind === 'act' && acts.has(effect.act))
      ? [{ step, number }]
      : [],
  );
}

/** The least time that a step takes, hands on and waiting, in seconds. */
function spentIn({ takes, hold }: Step, number: number, { run }: Work): number {
  return (takes?.least?.si ?? 0) + Math.max(hold?.least?.si ?? 0, run.steps[number]?.meanwhile?.least ?? 0);
}

/** A time that is enough for every change that is assumed, in seconds; none is where one part may not be changed so much. */
function longestOf({ procedure }: Unrun): number {
  const allowances = assumedLines(procedure, 'warming', 'allowed').map(amountOf);
  const times = assumedLines(procedure, 'warming', 'change').flatMap((change) =>
    allowances.flatMap((allowed) => {
      const time = timeFor(amountOf(change), allowed);
      if (time?.kind !== 'value') return [];
      return time.caveats.includes('only-as-a-whole') ? [Number.POSITIVE_INFINITY] : [time.value];
    }),
  );
  return Math.max(0, ...times);
}

/** The shortest time for a change. */
function timeFor(change: Quantity | undefined, allowed: Quantity | undefined): Answer<Second> | undefined {
  if (change === undefined || allowed === undefined) return undefined;
  return whenKnown(differenceOf(change), (by) =>
    whenKnown(differenceOf(allowed), (most) => whenKnown(lagOf(usualPane), (lag) => timeToChange(by, most, lag))),
  );
}
