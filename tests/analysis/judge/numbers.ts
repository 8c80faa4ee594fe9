import type { Procedure, Repeat, Stop, When, WhenCase } from '@quarrel/model';
import { flowIn } from '@quarrel/model';

/** The numbers by which records speak of parts: each kind counted on its own, in program order. */
export interface Numbers {
  readonly whens: ReadonlyMap<When, number>;
  readonly cases: ReadonlyMap<WhenCase, number>;
  readonly repeats: ReadonlyMap<Repeat, number>;
  readonly stops: ReadonlyMap<Stop, number>;
}

export function inOrder(procedure: Procedure): Numbers {
  const flows = [...flowIn(procedure.body)];
  const whens = flows.filter((flow) => flow.kind === 'when');
  return {
    whens: numbered(whens),
    cases: numbered(whens.flatMap((when) => when.cases)),
    repeats: numbered(flows.filter((flow) => flow.kind === 'repeat')),
    stops: numbered(flows.filter((flow) => flow.kind === 'stop')),
  };
}

function numbered<T>(parts: readonly T[]): ReadonlyMap<T, number> {
  return new Map(parts.map((part, number) => [part, number]));
}
