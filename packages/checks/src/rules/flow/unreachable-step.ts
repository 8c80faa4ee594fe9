import { type Block, blocksOf, type Flow, flowIn, type Step } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { takeOut } from '../../mends/text.js';
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
        mends: () => withoutStretch(step, following, work),
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
  /** Returns the stretch that goes on behind the block; `entered` is the one that it stands in. */
  const visit = (block: Block, entered: Stretch | undefined, isExplained: boolean): Stretch | undefined => {
    let current = entered;
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
      const around = current;
      for (const inner of blocksOf(part)) {
        const left = visit(inner, around, known || explained.has(inner));
        // What is unreached at the end of one case says nothing of the other cases, nor of what stands behind them.
        if (part.kind !== 'when') current = left;
      }
      // Behind a repeat that never ends nothing is reached, and that is reported of the repeat.
      if (part.kind === 'repeat' && part.atMost === undefined && part.until === undefined) known = true;
    }
    return current;
  };
  visit(work.procedure.body, undefined, work.run.covered === nowhere);
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

/** All of a stretch, where it is the step and all that stands behind it in its block; with the stage around it, if that is all. */
function withoutStretch(step: Step, following: number, work: Work): readonly Mend[] {
  let first: Flow = step;
  let place = work.layout.places.get(first);
  while (place?.index === 0 && place.around?.kind === 'stage') {
    first = place.around;
    place = work.layout.places.get(first);
  }
  const rest = place?.block.slice(place.index) ?? [];
  const steps = [...flowIn(rest)].filter((part) => part.kind === 'step').length;
  const end = rest.at(-1)?.whole?.end;
  if (place?.index === 0 || steps !== following + 1 || first.cut === undefined || end === undefined) return [];
  return takeOut(following === 0 ? 'Take the step away' : 'Take the steps away', { ...first.cut, end });
}
