import { spokenDuration } from '@quarrel/model';
import { heldFor } from '../../mends/hold.js';
import { headOf } from '../../mends/text.js';
import type { FlowRule } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** What is done during a hold takes longer than the hold. */
export const meanwhileOutlastsHold: FlowRule = {
  name: 'meanwhile-outlasts-hold',
  family: 'flow',
  severity: 'warning',
  title: 'What is done during a hold can take longer than the hold',
  *run(work) {
    for (const [number, step] of work.steps.entries()) {
      const effect = step.effects.find((one) => one.kind === 'meanwhile');
      const record = work.run.steps[number];
      if (effect === undefined || record === undefined || step.unreadHold !== undefined) continue;
      const reached = record.before.reached;
      const region = step.hold === undefined ? reached : record.outlasted;
      if (!isSomewhere(work, region)) continue;
      yield {
        range: headOf(effect.range, 'meanwhile'.length),
        message:
          step.hold === undefined
            ? 'This step has something to do meanwhile, but no hold to do it in.'
            : `What is done meanwhile ${lasting(record.meanwhile?.most)}, but the hold is over after ${step.hold.most?.text}.`,
        because: 'The timer rings while hands are still busy, and the hold runs over.',
        advice:
          step.hold === undefined
            ? 'Give the step a hold, or make steps of their own of it.'
            : 'Lengthen the hold, or move a step out of it.',
        mends: () => heldFor(step, record.meanwhile?.most ?? 0),
        step: number,
        where: { region, reached, before: number },
      };
    }
  },
};

function lasting(most: number | undefined): string {
  return most === undefined || most === Number.POSITIVE_INFINITY
    ? 'may take any time'
    : `may take ${spokenDuration(most)}`;
}
