import { type Block, blocksOf, type Flow, type Procedure, type Repeat, type Step, type When } from '@quarrel/model';

/** A part of a procedure with its numbers in the run. */
export interface Placed<Part extends Flow> {
  readonly part: Part;
  /** The number among the parts of its kind, in program order. */
  readonly number: number;
  /** How many steps begin before it. */
  readonly before: number;
}

export interface PlacedWhen extends Placed<When> {
  /** The number of its first case among all cases. */
  readonly firstCase: number;
  /** The steps of each case, then of `otherwise` where there is one: numbers from `from` to below `to`. */
  readonly spans: readonly { readonly from: number; readonly to: number }[];
}

/** Where a part stands in the flow. */
export interface Place {
  readonly block: Block;
  readonly index: number;
  /** The part that the block belongs to; missing for the procedure's own. */
  readonly around?: Flow;
}

/** Everything in a procedure that a run numbers, besides steps. */
export interface Layout {
  readonly places: ReadonlyMap<Flow, Place>;
  readonly whens: readonly PlacedWhen[];
  readonly repeats: readonly Placed<Repeat>[];
  /** By the number of a step: the conditions it finds out that may be known already. */
  readonly foundAgain: ReadonlyMap<number, readonly string[]>;
}

/** Numbers the parts of a procedure as a run numbers them. */
export function layoutOf(procedure: Procedure): Layout {
  const places = new Map<Flow, Place>();
  const whens: PlacedWhen[] = [];
  const repeats: Placed<Repeat>[] = [];
  const foundAgain = new Map<number, readonly string[]>();
  const known = new Set<string>();
  let steps = 0;
  let cases = 0;
  const visit = (block: Block, repeated: boolean, around?: Flow): void => {
    for (const [index, part] of block.entries()) {
      places.set(part, { block, index, ...(around === undefined ? {} : { around }) });
      const spans: { from: number; to: number }[] = [];
      if (part.kind === 'when') {
        whens.push({ part, number: whens.length, before: steps, firstCase: cases, spans });
        cases += part.cases.length;
      } else if (part.kind === 'repeat') {
        repeats.push({ part, number: repeats.length, before: steps });
      } else if (part.kind === 'step') {
        const found = foundOutBy(part);
        const again = found.filter(
          (condition, index) => repeated || known.has(condition) || found.indexOf(condition) < index,
        );
        if (again.length > 0) foundAgain.set(steps, again);
        for (const condition of found) known.add(condition);
        steps += 1;
      }
      for (const inner of blocksOf(part)) {
        const from = steps;
        visit(inner, repeated || part.kind === 'repeat', part);
        spans.push({ from, to: steps });
      }
    }
  };
  visit(procedure.body, false);
  return { places, whens, repeats, foundAgain };
}

/** The conditions that a step observes or reads, in order. */
function foundOutBy(step: Step): readonly string[] {
  return step.effects.flatMap((effect) =>
    effect.kind === 'observe' || effect.kind === 'read' ? [effect.condition] : [],
  );
}
