import type { Block, Flow, Procedure, Step } from './procedure.js';

/** Blocks that were walked: a check asks for the parts of one procedure many times. */
const walked = new WeakMap<Block, readonly Flow[]>();

/** Every part of a block in program order, outer before inner. */
export function flowIn(block: Block): readonly Flow[] {
  const known = walked.get(block);
  if (known !== undefined) return known;
  const found: Flow[] = [];
  const visit = (parts: Block): void => {
    for (const part of parts) {
      found.push(part);
      for (const inner of blocksOf(part)) visit(inner);
    }
  };
  visit(block);
  walked.set(block, found);
  return found;
}

/** The blocks directly inside a part, in program order. */
export function blocksOf(part: Flow): readonly Block[] {
  switch (part.kind) {
    case 'stage':
    case 'repeat':
      return [part.body];
    case 'when':
      return [...part.cases.map((one) => one.body), ...(part.otherwise === undefined ? [] : [part.otherwise])];
    case 'step':
      return part.effects.flatMap((effect) => (effect.kind === 'meanwhile' ? [effect.body] : []));
    case 'stop':
      return [];
  }
}

/** The steps of a procedure in program order; a step's position here is its number in a run. */
export function stepsOf(procedure: Procedure): readonly Step[] {
  return flowIn(procedure.body).filter((part) => part.kind === 'step');
}
