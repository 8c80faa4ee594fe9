import { type Block, blocksOf, type Flow, flowIn, type Procedure } from '@quarrel/model';

/** The numbers by which a run speaks of the parts of a procedure: each kind counted in program order. */
export interface Numbering {
  of(part: Flow): number;
  /** The number of the first case of a `when`; its other cases follow. */
  firstCase(part: Flow): number;
}

export function numberingOf(procedure: Procedure): Numbering {
  const numbers = new Map<Flow, number>();
  const firstCases = new Map<Flow, number>();
  const counts = new Map<Flow['kind'], number>();
  let cases = 0;
  for (const part of flowIn(procedure.body)) {
    const number = counts.get(part.kind) ?? 0;
    counts.set(part.kind, number + 1);
    numbers.set(part, number);
    if (part.kind !== 'when') continue;
    firstCases.set(part, cases);
    cases += part.cases.length;
  }
  return { of: (part) => numbers.get(part) ?? -1, firstCase: (part) => firstCases.get(part) ?? -1 };
}

/** The conditions that a job may learn more than once, so that what was so before need not be so later. */
export function readAgain(procedure: Procedure): ReadonlySet<string> {
  const times = new Map<string, number>();
  const visit = (block: Block, weight: number): void => {
    for (const part of block) {
      if (part.kind === 'step') {
        for (const effect of part.effects) {
          if (effect.kind !== 'observe' && effect.kind !== 'read') continue;
          times.set(effect.condition, (times.get(effect.condition) ?? 0) + weight);
        }
      }
      for (const inner of blocksOf(part)) visit(inner, part.kind === 'repeat' && part.atMost !== 1 ? 2 : weight);
    }
  };
  visit(procedure.body, 1);
  return new Set([...times].filter(([, count]) => count > 1).map(([condition]) => condition));
}
