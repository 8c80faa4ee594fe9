import { flowIn, type Repeat } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { actWritten, addBefore } from '../../mends/parts.js';
import { foundOutIn } from '../../mends/situations.js';
import type { FlowRule, Work } from '../../rule.js';
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
        mends: () => made(part, work),
        where: { region: record.untouched, reached: record.entered, before },
      };
    }
  },
};

/** Acts that bring the goal, done first of all in each pass: those that make just what it confirms before those that come near. */
function made({ body, confirms }: Repeat, work: Work): readonly Mend[] {
  const [first] = body;
  const steps = [...flowIn(body)].filter((part) => part.kind === 'step');
  // Where a pass finds something out, a job may come to the goal in another situation than it began the pass in.
  const findsOut = steps.some((step) => foundOutIn(step, 0, step.effects.length).size > 0);
  if (first === undefined || confirms === undefined || findsOut) return [];
  const { acts, states } = work.procedure.vocabulary;
  const values = states.find(({ name }) => name === confirms.state)?.values.map(({ name }) => name) ?? [];
  const goal = values.indexOf(confirms.value);
  const reach = (value: string): number => goal - values.indexOf(value);
  return acts
    .flatMap((act) => {
      const last = act.makes.findLast(({ state }) => state === confirms.state);
      return last === undefined || reach(last.value) < 0 ? [] : [{ act, left: reach(last.value) }];
    })
    .sort((a, b) => a.left - b.left)
    .slice(0, 3)
    .flatMap(({ act }) => {
      const edit = addBefore(first, work.layout, actWritten(act, work.procedure));
      return edit === undefined ? [] : [{ title: `Do ${act.name} at the beginning of each pass`, edits: [edit] }];
    });
}
