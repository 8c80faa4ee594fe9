import { type Block, blocksOf, type Procedure } from '@quarrel/model';

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
