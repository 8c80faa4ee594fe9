import { type Answer, firstOutside, none, value } from './answer.js';
import { gapToFill, type Leg, type Liquid } from './fill.js';
import { type Metre, type Pascal, type Ratio, type Second, si } from './si.js';

/** A repair that a shop watched with a stopwatch: how long the resin took to the end of a leg of this length. */
export interface TimedRepair {
  readonly leg: Omit<Leg, 'gap'>;
  readonly liquid: Liquid;
  readonly push: Pascal;
  readonly time: Second;
}

/** A shop's own gap, and how sure it is. */
export interface CalibratedGap {
  /** The gap that fits all repairs best. */
  readonly gap: Metre;
  /** Between these lies, with 95 % confidence, the gap that many more such repairs would give. */
  readonly least: Metre;
  readonly most: Metre;
  /** Standard error of ln(gap): near the relative error, as long as it is small. */
  readonly standardError: Ratio;
  /** Standard deviation of ln(gap) between repairs: how far the gap of a single break lies from the middle of all. */
  readonly scatter: Ratio;
  readonly repairs: number;
}

/**
 * The gap from timed repairs: each gives the gap at which its leg fills in its time (`gapToFill`); the answer minimises
 * the squares of ln(gap), that is of relative errors, and so is their geometric mean. Uncertainty from the residuals:
 * s/√n, and Student's t with n − 1 degrees of freedom for the range. Assumes that repairs differ independently and by
 * factors that are normally distributed in the logarithm; it cannot see an error they share, such as a wrong viscosity.
 * Needs three repairs; more than a factor of two between the ends of the range carries the caveat `unsure-gap`.
 */
export function calibrateGap(repairs: readonly TimedRepair[]): Answer<CalibratedGap> {
  const count = repairs.length;
  if (count < 3) return none('too-few-repairs');
  const logarithms: number[] = [];
  for (const { leg, liquid, push, time } of repairs) {
    const gap = gapToFill(leg, liquid, push, time);
    if (gap.kind !== 'value') return gap;
    const outside = firstOutside({ of: 'gap', given: gap.value, least: 1e-8, most: 1e-3 });
    if (outside !== undefined) return outside;
    logarithms.push(Math.log(gap.value));
  }
  const mean = logarithms.reduce((sum, one) => sum + one, 0) / count;
  const scatter = Math.sqrt(logarithms.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (count - 1));
  const standardError = scatter / Math.sqrt(count);
  const reach = studentT95(count - 1) * standardError;
  const calibrated: CalibratedGap = {
    gap: si(Math.exp(mean), 'length'),
    least: si(Math.exp(mean - reach), 'length'),
    most: si(Math.exp(mean + reach), 'length'),
    standardError: si(standardError, 'ratio'),
    scatter: si(scatter, 'ratio'),
    repairs: count,
  };
  return value(calibrated, Math.exp(2 * reach) > 2 ? ['unsure-gap'] : []);
}

/** Student's t for two-sided 95 % and few degrees of freedom, from 2 up (any table of it; from memory). */
const tableOfT = [4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262];

/**
 * Student's t for two-sided 95 %, from two degrees of freedom up: the table, then the expansion of Abramowitz and
 * Stegun 26.7.5 (from memory), within 0.01 % from ten degrees up.
 */
export function studentT95(freedom: number): number {
  const tabled = tableOfT[freedom - 2];
  if (tabled !== undefined) return tabled;
  const z = 1.959964;
  const first = (z ** 3 + z) / 4;
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const third = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  return z + first / freedom + second / freedom ** 2 + third / freedom ** 3;
}
