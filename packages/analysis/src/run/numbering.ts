import type { Flow, Procedure } from '@quarrel/model';
import { flowIn } from '@quarrel/model';

/** Parts of a procedure by number, each kind counted on its own in program order. */
export interface Numbering {
  readonly counts: Readonly<Record<Flow['kind'], number>>;
  /** How many cases all whens have together. */
  readonly caseCount: number;
  of(part: Flow): number;
  /** The number of the first case of a `when`; the others follow it. */
  firstCaseOf(part: Flow): number;
}

export function numberingOf(procedure: Procedure): Numbering {
  const numbers = new Map<Flow, number>();
  const firstCases = new Map<Flow, number>();
  const counts: Record<Flow['kind'], number> = { step: 0, stage: 0, when: 0, repeat: 0, stop: 0 };
  let caseCount = 0;
  for (const part of flowIn(procedure.body)) {
    numbers.set(part, counts[part.kind]++);
    if (part.kind !== 'when') continue;
    firstCases.set(part, caseCount);
    caseCount += part.cases.length;
  }
  return {
    counts,
    caseCount,
    of: (part) => numbers.get(part) ?? -1,
    firstCaseOf: (part) => firstCases.get(part) ?? -1,
  };
}
