import { type Numbering, numberingOf, type Region, type Run, readAgain } from '@quarrel/analysis';
import type { Procedure, Test } from '@quarrel/model';

/** What every part of the compiler looks at. */
export interface Context {
  readonly procedure: Procedure;
  readonly run: Run;
  readonly numbering: Numbering;
  readonly suppose: readonly Test[];
  /** Conditions that a job may learn more than once, so that what was so before need not be so later. */
  readonly changing: ReadonlySet<string>;
  /** Every situation a job of the run can be in at some time: what is read again can be anything covered. */
  readonly possible: Region;
}

export function contextOf(procedure: Procedure, run: Run, suppose: readonly Test[]): Context {
  const changing = readAgain(procedure);
  return {
    procedure,
    run,
    numbering: numberingOf(procedure),
    suppose,
    changing,
    possible: possibleIn(run, procedure, changing),
  };
}

function possibleIn({ situations, covered }: Run, procedure: Procedure, changing: ReadonlySet<string>): Region {
  const { store } = situations;
  const freed = [...changing].reduce((region, condition) => {
    const level = situations.levelOf(condition);
    return level === undefined ? region : store.forget(region, level, either);
  }, covered);
  return procedure.covers.reduce((region, test) => store.and(region, situations.region(test).holds), freed);
}

const either = (a: boolean, b: boolean): boolean => a || b;
