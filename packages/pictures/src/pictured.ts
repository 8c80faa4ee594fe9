import { axesOf, type Interpretation, Outgrown, type Region, Situations } from '@quarrel/analysis';
import type { Finding } from '@quarrel/checks';
import type { Procedure, Test } from '@quarrel/model';

/** What a picture is made of: a procedure as the checks report it, and a way to read what findings say of situations. */
export interface Pictured {
  readonly procedure: Procedure;
  readonly interpretation: Interpretation;
  /** Of the procedure, and of the text of its sheet. */
  readonly findings: readonly Finding[];
  /** Reads a test on the procedure's conditions in the language's words. */
  readonly read: (text: string) => Test;
}

/** The situations of a procedure, and which of them it covers. */
export interface Ground {
  readonly situations: Situations;
  readonly covered: Region;
}

const bounds = { nodes: 100_000, steps: 1_000_000 };

/** Where a procedure stands, from its run or, where it is too tangled to be run, from what it covers; `undefined` beyond that. */
export function groundOf({ procedure, interpretation }: Pictured): Ground | undefined {
  if (interpretation.kind === 'run') return interpretation.run;
  const situations = new Situations(procedure, axesOf(procedure, []));
  const { store } = situations;
  const covered = (): Region =>
    procedure.covers.reduce((region, test) => store.and(region, situations.region(test).holds), store.everywhere);
  try {
    return { situations, covered: store.task(bounds, covered) };
  } catch (error) {
    if (error instanceof Outgrown) return undefined;
    throw error;
  }
}
