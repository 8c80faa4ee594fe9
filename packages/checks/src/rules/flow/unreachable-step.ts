import { type Block, blocksOf, type Flow, type Step } from '@quarrel/model';
import type { FlowRule, Work } from '../../rule.js';
import { alwaysTrueCases, neverTrueCases } from '../../taken.js';

/** The first step of each stretch that no situation reaches. */
export const unreachableStep: FlowRule = {
  name: 'unreachable-step',
  family: 'flow',
  severity: 'warning',
  title: 'A step that no situation reaches',
  *run(work) {
    for (const { step, number, following } of stretches(work)) {
      yield {
        range: step.range,
        message:
          following === 0
            ? `No situation reaches "${step.text}".`
            : `No situation reaches "${step.text}", nor the ${following === 1 ? 'step' : `${following} steps`} behind it.`,
        because: 'A step that is never done gives a reader a false sense of what is.',
        advice: 'Look at what stops the work before it, or take it away.',
        step: number,
      };
    }
  },
};

interface Stretch {
  readonly step: Step;
  readonly number: number;
  /** How many more steps behind it are not reached either. */
  following: number;
}

/** Stretches of unreached steps, but for those of which an enclosing case is reported or that nothing can come to. */
function stretches(work: Work): readonly Stretch[] {
  const { nowhere } = work.run.situations.store;
  const found: Stretch[] = [];
  const explained = explainedBlocks(work);
  const numbers = new Map<Flow, number>(work.steps.map((step, number) => [step, number]));
  let current: Stretch | undefined;
  const visit = (block: Block, isExplained: boolean): void => {
    let known = isExplained;
    for (const part of block) {
      if (part.kind === 'step' && !known) {
        const number = numbers.get(part) ?? 0;
        if (work.run.steps[number]?.before.reached !== nowhere) current = undefined;
        else if (current === undefined) {
          current = { step: part, number, following: 0 };
          found.push(current);
        } else current.following += 1;
      }
      for (const inner of blocksOf(part)) visit(inner, known || explained.has(inner));
      // Behind a repeat that never ends nothing is reached, and that is reported of the repeat.
      if (part.kind === 'repeat' && part.atMost === undefined && part.until === undefined) known = true;
    }
  };
  visit(work.procedure.body, work.run.covered === nowhere);
  return found;
}

/** Blocks that are not reached for a reason already given: their case is never taken, or one before takes everything. */
function explainedBlocks(work: Work): ReadonlySet<Block> {
  const blocks = new Set<Block>(neverTrueCases(work).map((taken) => taken.case.body));
  for (const { placed, index } of alwaysTrueCases(work)) {
    const { cases, otherwise } = placed.part;
    for (const one of cases.slice(index + 1)) blocks.add(one.body);
    if (otherwise !== undefined) blocks.add(otherwise);
  }
  return blocks;
}
