import {
  celsius,
  type Kelvin,
  rangeOf,
  si,
  temperatureAt,
  type ViscosityPoint,
  viscosityAt,
  viscosityCurve,
} from '@quarrel/process';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { known } from '../references/published.js';
import { between, curve, curveOn, law, logarithmic } from './arbitrary.js';

/** A temperature within a curve's range, as a share of the way. */
const share = between(0, 1);

function within({ least, most }: { least: Kelvin; most: Kelvin }, part: number): Kelvin {
  return si(Math.min(most, least + part * (most - least)), 'temperature');
}

/** Two to six points whose viscosity falls, at least 1 K and 1 % apart: any datasheet that is not refused. */
const falling: fc.Arbitrary<readonly ViscosityPoint[]> = fc
  .array(fc.tuple(between(1, 30), between(1.01, 5)), { minLength: 1, maxLength: 5 })
  .chain((steps) => fc.tuple(between(-20, 10), logarithmic(0.01, 100), fc.constant(steps)))
  .map(([coldest, thickest, steps]) => {
    const points = [{ temperature: celsius(coldest), viscosity: si(thickest, 'viscosity') }];
    let [degrees, viscosity] = [coldest, thickest];
    for (const [warmer, thinner] of steps) {
      degrees += warmer;
      viscosity /= thinner;
      points.push({ temperature: celsius(degrees), viscosity: si(viscosity, 'viscosity') });
    }
    return points;
  });

describe('a curve', () => {
  test('returns the points that it was made of: two', () => {
    fc.assert(
      fc.property(law, (viscosity) => {
        const through = curveOn(viscosity, 5, 20);
        for (const degrees of [5, 20]) {
          const at = celsius(degrees);
          expect(known(viscosityAt(through, at)) / viscosity(at)).toBeCloseTo(1, 9);
        }
        expect(through.law).toBe('andrade');
      }),
    );
  });

  test('returns the points that it was made of, and the law they lie on: three and more', () => {
    fc.assert(
      fc.property(law, fc.constantFrom([0, 20, 40], [0, 10, 20, 30, 40]), share, (viscosity, points, part) => {
        const through = curveOn(viscosity, ...points);
        const at = within(rangeOf(through), part);
        expect(through.law).toBe('vogel');
        expect(known(viscosityAt(through, at)) / viscosity(at)).toBeCloseTo(1, 4);
      }),
    );
  });

  test('falls with temperature all over its range, whatever the datasheet', () => {
    fc.assert(
      fc.property(falling, share, share, (points, one, other) => {
        const through = known(viscosityCurve(points));
        const [colder, warmer] = [Math.min(one, other), Math.max(one, other)];
        const range = rangeOf(through);
        const [thicker, thinner] = [colder, warmer].map((part) => known(viscosityAt(through, within(range, part))));
        expect(thinner).toBeLessThanOrEqual(thicker ?? Number.NaN);
        expect(Number.isFinite(thicker)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  test('is turned round exactly: temperature to viscosity to temperature', () => {
    fc.assert(
      fc.property(curve, share, (through, part) => {
        const { least, most } = rangeOf(through);
        const at = within({ least: si(least + 0.01, 'temperature'), most: si(most - 0.01, 'temperature') }, part);
        expect(known(temperatureAt(through, known(viscosityAt(through, at))))).toBeCloseTo(at, 7);
      }),
    );
  });

  test('does not ask in which order the points stand, nor whether one stands twice', () => {
    fc.assert(
      fc.property(falling, (points) => {
        expect(viscosityCurve([...points].reverse().concat(points))).toEqual(viscosityCurve(points));
      }),
    );
  });

  test('by least squares is no worse than any other of its family nearby', () => {
    fc.assert(
      fc.property(falling, between(-5, 5), (points, shift) => {
        const through = known(viscosityCurve(points));
        const miss = (t0: number): number => leastMiss(points, t0);
        const other = through.t0 + shift;
        const coldest = Math.min(...points.map(({ temperature }) => temperature));
        if (other < 0 || other > coldest - 1 || points.length === 2) return;
        expect(miss(through.t0)).toBeLessThanOrEqual(miss(other) * (1 + 1e-9) + 1e-12);
      }),
      { numRuns: 300 },
    );
  });
});

/** The least sum of squares of ln η for a given t0, by the normal equations. */
function leastMiss(points: readonly ViscosityPoint[], t0: number): number {
  const xs = points.map(({ temperature }) => 1 / (temperature - t0));
  const ys = points.map(({ viscosity }) => Math.log(viscosity));
  const n = points.length;
  const sum = (numbers: readonly number[]) => numbers.reduce((total, each) => total + each, 0);
  const [x, y] = [sum(xs) / n, sum(ys) / n];
  const xx = sum(xs.map((each) => (each - x) ** 2));
  const xy = sum(xs.map((each, index) => (each - x) * ((ys[index] ?? 0) - y)));
  const yy = sum(ys.map((each) => (each - y) ** 2));
  return yy - xy ** 2 / xx;
}
