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

/** Which of the conditions that are settled a run of its own is made for. */
export type Precision =
  /** Those that are looked at again and so can change on the way; the others stay as they are, and the whole run tells. */
  | 'changing'
  /** All: the clock of a whole run is kept by its extremes where times add up in too many ways. */
  | 'all';

/**
 * What a job does in the situations that it starts in, read off the run of the whole procedure or of one from those situations
 * alone. `asked` are the tests that are put to the situations.
 */
export function lookingAt(procedure: Procedure, whole: Run, asked: readonly Test[], precision: Precision): Looking {
  const changing = readAgain(procedure);
  const isRunAlone = ({ condition }: Settled): boolean => precision === 'all' || changing.has(condition.name);
  const runs = new Map<string, Run | undefined>();
  const runFrom = (suppose: readonly Test[]): Run | undefined => {
    const interpretation = interpret(procedure, { acts: [], responses: [], finals: [], tests: asked }, { suppose });
    return interpretation.kind === 'run' ? interpretation.run : undefined;
  };
  return (settled) => {
    const suppose = settled.filter(isRunAlone).flatMap(({ tests }) => tests);
    const key = JSON.stringify(suppose);
    if (!runs.has(key)) runs.set(key, suppose.length === 0 ? whole : runFrom(suppose));
    const run = runs.get(key);
    if (run === undefined) return undefined;
    const { store } = run.situations;
    const within = settled
      .filter((one) => !isRunAlone(one))
      .flatMap(({ tests }) => tests)
      .reduce((region, test) => store.and(region, run.situations.region(test).holds), store.everywhere);
    return { run, within };
  };
}
