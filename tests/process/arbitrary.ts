import {
  celsius,
  degrees,
  type Leg,
  type Liquid,
  type Pascal,
  si,
  type ViscosityCurve,
  viscosityCurve,
} from '@quarrel/process';
import fc from 'fast-check';
import { seed } from '../analysis/judge/seed.js';
import { known } from '../references/published.js';

fc.configureGlobal(seed());

/*
  What resins, breaks and lamps can be like, and somewhat beyond.
*/

/** A number from `min` to `max`, evenly spread, which fast-check's own doubles are not; both ends come up. */
export function between(min: number, max: number): fc.Arbitrary<number> {
  const parts = 2 ** 30;
  return fc.integer({ min: 0, max: parts }).map((part) => min + (part / parts) * (max - min));
}

/** A number from `min` to `max`, evenly spread in its logarithm. */
export function logarithmic(min: number, max: number): fc.Arbitrary<number> {
  return between(Math.log(min), Math.log(max)).map(Math.exp);
}

export const leg: fc.Arbitrary<Leg> = fc.record({
  gap: logarithmic(0.3e-6, 30e-6).map((gap) => si(gap, 'length')),
  length: logarithmic(1e-3, 0.15).map((length) => si(length, 'length')),
  contactAngle: between(0, 85).map(degrees),
});

export const liquid: fc.Arbitrary<Liquid> = fc.record({
  viscosity: logarithmic(1e-3, 100).map((viscosity) => si(viscosity, 'viscosity')),
  surfaceTension: between(0.01, 0.08).map((tension) => si(tension, 'surface-tension')),
});

/** From nothing, which leaves capillary pull, to 500 kPa. */
export const push: fc.Arbitrary<Pascal> = between(0, 5e5).map((pascal) => si(pascal, 'pressure'));

/**
 * A resin on Vogel's law, as glass-forming liquids are: its pole well below its use, and ln η at 20 °C between 4 and 14 above
 * what it falls to (water has 3.5, glycerol 13).
 */
export const law: fc.Arbitrary<(kelvin: number) => number> = fc
  .record({ at20: logarithmic(5e-3, 5), fall: between(4, 14), t0: between(20, 200) })
  .map(
    ({ at20, fall, t0 }) =>
      (kelvin) =>
        at20 * Math.exp(fall * ((293.15 - t0) / (kelvin - t0) - 1)),
  );

/** The curve through points that lie on a law. */
export function curveOn(viscosity: (kelvin: number) => number, ...points: readonly number[]): ViscosityCurve {
  return known(
    viscosityCurve(
      points.map((each) => ({ temperature: celsius(each), viscosity: si(viscosity(celsius(each)), 'viscosity') })),
    ),
  );
}

/** A curve of one of the laws through two, three or five points. */
export const curve: fc.Arbitrary<ViscosityCurve> = fc
  .tuple(law, fc.constantFrom([5, 20], [0, 20, 40], [0, 10, 20, 30, 40]))
  .map(([viscosity, points]) => curveOn(viscosity, ...points));
