import { interpret } from '@quarrel/analysis';
import type { Procedure } from '@quarrel/model';
import type { Picked, Pictured, Times } from '@quarrel/pictures';
import type { Cells } from '../analysis/judge/cells.js';
import { both, type Times as Clock, type Facts } from '../analysis/judge/facts.js';
import { judge } from '../analysis/judge/naive.js';

/** Parts that the judge walks through at most; procedures that need more are left for others of the same kind. */
const longest = 3_000;

/** What a walk finds that starts in some of the situations covered; `undefined` where it is too long. */
export function walkedFrom(procedure: Procedure, cells: Cells, starts: (picked: Picked) => boolean): Facts | undefined {
  const covered = cells.covered.map((isCovered, cell) => isCovered && starts(cells.scenarios[cell] ?? {}));
  // What is looked at again can come out as anything covered, wherever the walk began.
  return judge(procedure, { ...cells, covered }, longest);
}

/** The clock of a line over all situations, as pictures say it. */
export function timesAt(facts: Facts, line: string): Times | undefined {
  const clocks = [...(facts.clocks.get(line)?.values() ?? [])];
  return clocks.length === 0 ? undefined : timesOf(clocks.reduce(both));
}

export function timesOf({ least, most }: Clock): Times {
  return { least, ...(Number.isFinite(most) ? { most } : {}) };
}

/** A procedure without findings, to make pictures of. */
export function picturedOf(procedure: Procedure): Pictured {
  return {
    procedure,
    interpretation: interpret(procedure),
    findings: [],
    read: () => ({ kind: 'always', range: procedure.range }),
  };
}
