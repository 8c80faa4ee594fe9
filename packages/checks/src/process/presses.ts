import type { Region, Run } from '@quarrel/analysis';
import { type Procedure, type Quantity, type Reading, type Step, stepsOf } from '@quarrel/model';
import { rangeOf } from '@quarrel/process';
import { layoutOf } from '../layout.js';
import type { Ran } from '../rule.js';
import { isSomewhere } from '../work.js';
import { curveOf } from './datasheet.js';
import { type Fill, fillingSteps, fillsAt, heldFor, secondsToFill, tooColdFor, turnOf } from './fills.js';
import { outlasted } from './longest.js';

/** A step that presses resin in. */
export interface Press {
  readonly step: Step;
  /** Where it is done. */
  readonly reached: Region;
  readonly fills: readonly Pressed[];
}

/** A fill that a step can be. */
export interface Pressed {
  readonly fill: Fill;
  /** Where it is this fill. */
  readonly region: Region;
  /** Where the hold of the step turns too short; missing where it is long enough wherever the datasheet tells. */
  readonly turn?: Turn;
}

export interface Turn {
  /** In K: colder, the hold is too short. */
  readonly at: number;
  /** The same as findings tell it; missing where the reading goes no colder. */
  readonly shown?: Quantity;
  /** Whether the need is as long as the hold there; else the datasheet tells no further, and it is longer. */
  readonly isExact: boolean;
  /** Where the hold is too short; can be nowhere. */
  readonly short: Region;
  /** Whether a longer press speaks for it wherever it is too short. */
  readonly isOutlasted: boolean;
}

/** The steps of a procedure that press resin in, with what each can fill and where its hold turns too short for it. */
export function pressesOf(procedure: Procedure, run: Run, reading: Reading): readonly Press[] {
  const work: Ran = { procedure, run, steps: stepsOf(procedure), layout: layoutOf(procedure) };
  return fillingSteps(work).map(({ step, number }) => ({
    step,
    reached: run.steps[number]?.before.reached ?? run.situations.store.nowhere,
    fills: fillsAt(number, work).map(({ fill, region }) => {
      const turn = turnFor(fill, region, { step, number }, reading, work);
      return { fill, region, ...(turn === undefined ? {} : { turn }) };
    }),
  }));
}

function turnFor(
  fill: Fill,
  region: Region,
  { step, number }: { readonly step: Step; readonly number: number },
  reading: Reading,
  work: Ran,
): Turn | undefined {
  const hold = heldFor(step);
  const at = turnOf(fill, hold);
  if (at === undefined) return undefined;
  const { situations } = work.run;
  const { store } = situations;
  const test = tooColdFor(fill, hold, reading, work.procedure);
  const short = test === undefined ? store.nowhere : store.and(region, situations.region(test).holds);
  const shown = test?.kind === 'compare' ? test.quantity : undefined;
  const need = secondsToFill(fill, at) ?? Number.POSITIVE_INFINITY;
  return {
    at,
    ...(shown === undefined ? {} : { shown }),
    isExact: Math.abs(need - hold) <= 1e-6 * hold,
    short,
    isOutlasted: !isSomewhere(work, store.without(short, outlasted(step, number, work))),
  };
}

/** How far the datasheet of a resin tells its viscosity, in K. */
export interface Told {
  /** The coldest and the warmest point of the datasheet. */
  readonly coldest: number;
  readonly warmest: number;
  /** The ends of what may be estimated from them. */
  readonly least: number;
  readonly most: number;
}

/** How far the datasheet of a fill's resin tells its viscosity; nothing where it does not, or makes no sense. */
export function toldOf({ resin }: Fill): Told | undefined {
  const curve = curveOf(resin);
  if (curve?.kind !== 'value') return undefined;
  const { coldest, warmest } = curve.value;
  return { coldest, warmest, ...rangeOf(curve.value) };
}
