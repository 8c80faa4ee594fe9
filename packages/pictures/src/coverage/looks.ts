import { interpret, type Run, readAgain } from '@quarrel/analysis';
import type { Condition, Procedure, Test } from '@quarrel/model';
import type { Look } from './outcomes.js';

/** A condition that is settled to one cell of its axis or one value, as tests. */
export interface Settled {
  readonly condition: Condition;
  readonly tests: readonly Test[];
}

/** Looks at the situations in which some conditions are settled; `undefined` where a run of them alone is too tangled. */
export type Looking = (settled: readonly Settled[]) => Look | undefined;

/**
 * What a job does in the situations that it starts in. A condition that is looked at once stays as it is, so that the run of the
 * whole procedure tells. One that is looked at again can change on the way: then the procedure is run once more, from the situations
 * that start so. `asked` are the tests that are put to the situations.
 */
export function lookingAt(procedure: Procedure, whole: Run, asked: readonly Test[]): Looking {
  const changing = readAgain(procedure);
  const canChange = ({ condition }: Settled): boolean => changing.has(condition.name);
  const runs = new Map<string, Run | undefined>();
  const runFrom = (suppose: readonly Test[]): Run | undefined => {
    const interpretation = interpret(procedure, { acts: [], responses: [], finals: [], tests: asked }, { suppose });
    return interpretation.kind === 'run' ? interpretation.run : undefined;
  };
  return (settled) => {
    const suppose = settled.filter(canChange).flatMap(({ tests }) => tests);
    const key = JSON.stringify(suppose);
    if (!runs.has(key)) runs.set(key, suppose.length === 0 ? whole : runFrom(suppose));
    const run = runs.get(key);
    if (run === undefined) return undefined;
    const { store } = run.situations;
    const within = settled
      .filter((one) => !canChange(one))
      .flatMap(({ tests }) => tests)
      .reduce((region, test) => store.and(region, run.situations.region(test).holds), store.everywhere);
    return { run, within };
  };
}
