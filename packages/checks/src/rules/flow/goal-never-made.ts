import type { FlowRule } from '../../rule.js';
import { anyOf } from '../../words.js';
import { isSomewhere } from '../../work.js';

/** A repeat whose passes do nothing to the state that its goal confirms. */
export const goalNeverMade: FlowRule = {
  name: 'goal-never-made',
  family: 'flow',
  severity: 'warning',
  title: 'A repeat whose passes do nothing for its goal',
  *run(work) {
    for (const { part, number, before } of work.layout.repeats) {
      const record = work.run.repeats[number];
      if (record === undefined || part.confirms === undefined || !isSomewhere(work, record.untouched)) continue;
      const { state, value, range } = part.confirms;
      const makers = work.procedure.vocabulary.acts
        .filter((act) => act.makes.some((made) => made.state === state))
        .map((act) => act.name);
      yield {
        range,
        message: `The goal is ${state} ${value}, but nothing that a pass does here changes ${state}.`,
        because: 'Doing the same again brings the goal no nearer.',
        advice:
          makers.length === 0
            ? `Let some act make ${state} ${value}.`
            : `Let the passes do ${anyOf(makers)}, or confirm what they do change.`,
        where: { region: record.untouched, reached: record.entered, before },
      };
    }
  },
};
