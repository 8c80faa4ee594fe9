import { celsius, rangeOf, si, wetness } from '@quarrel/process';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { seed } from '../analysis/judge/seed.js';
import { between, law, logarithmic } from '../process/arbitrary.js';
import { curveOf, foundBelow, grain, type Job, needOf, sheetOf, thermometer, warmestWhere } from './process.js';

/** Beside a step of the scan: what the arithmetic of °C and K adds. */
const rounding = 1e-6;

/** So many digits as a datasheet has. */
function digits(value: number, count: number): number {
  return Number(value.toPrecision(count));
}

/** Two to four points of one resin on Vogel's law, at whole degrees at least 3 K apart. */
const points = fc
  .record({
    viscosity: law,
    first: fc.integer({ min: -5, max: 12 }),
    steps: fc.array(fc.integer({ min: 3, max: 12 }), { minLength: 1, maxLength: 3 }),
  })
  .map(({ viscosity, first, steps }) => {
    const temperatures = [first];
    for (const step of steps) temperatures.push((temperatures.at(-1) ?? first) + step);
    return temperatures.map((at) => [at, digits(viscosity(at + 273.15) * 1000, 4)] as const);
  });

const filled = fc.record({
  points,
  surfaceTension: between(5, 60).map((value) => digits(value, 3)),
  gap: logarithmic(0.5, 20).map((value) => digits(value, 3)),
  length: logarithmic(2, 60).map((value) => digits(value, 3)),
  pressure: between(20, 500).map((value) => digits(value, 3)),
});

/** Most holds turn too short at some temperature of the datasheet; some are anything. */
const jobs: fc.Arbitrary<Job> = fc
  .record({ filled, at: between(-12, 50), any: logarithmic(0.1, 1e5), isAny: fc.integer({ min: 0, max: 5 }) })
  .map(({ filled: job, at, any, isAny }) => {
    const need = isAny === 0 ? undefined : needOf(job, curveOf(job), at);
    return { ...job, hold: Math.max(0.001, Number(digits(need ?? any, 4).toFixed(3))) };
  });

describe('the turning point of a finding is the one that a scan in steps of 0.01 °C finds', () => {
  test('hold-shorter-than-fill, for 500 resins and holds', { timeout: 110_000 }, async () => {
    const seen = { turns: 0, never: 0, always: 0 };
    await fc.assert(
      fc.asyncProperty(jobs, async (job) => {
        const curve = curveOf(job);
        const scanned = warmestWhere((at) => (needOf(job, curve, at) ?? 0) > job.hold);
        const found = await foundBelow(sheetOf(job), 'hold-shorter-than-fill');
        if (scanned === undefined && found === undefined) {
          seen.never += 1;
          return;
        }
        // Where it turns less than a step above the cold end of the datasheet, one of the two may find nothing.
        const cold = Math.max(thermometer.low, rangeOf(curve).least - 273.15);
        expect(Math.abs((found ?? cold) - (scanned ?? cold))).toBeLessThanOrEqual(grain + rounding);
        if ((scanned ?? cold) >= rangeOf(curve).most - 273.15 - grain) seen.always += 1;
        else seen.turns += 1;
      }),
      { numRuns: 500, ...seed() },
    );
    // Whatever comes by chance, most holds turn.
    expect(seen.turns).toBeGreaterThan(200);
    expect(seen.never).toBeGreaterThan(5);
    expect(seen.always).toBeGreaterThan(5);
  });

  test('hold-shorter-than-fill, for resins of one viscosity: no claim where it is warmer', {
    timeout: 60_000,
  }, async () => {
    await fc.assert(
      fc.asyncProperty(jobs, async (job) => {
        const [first] = job.points;
        if (first === undefined) return;
        const one = { ...job, points: [first] };
        const isShort = (needOf(one, curveOf(one), first[0]) ?? 0) > job.hold;
        const found = await foundBelow(sheetOf(one), 'hold-shorter-than-fill');
        if (isShort) expect(found).toBeCloseTo(first[0], 6);
        else expect(found).toBeUndefined();
      }),
      { numRuns: 60, ...seed() },
    );
  });

  test('wet-glass, for 500 airs', { timeout: 110_000 }, async () => {
    const airs = fc.record({
      temperature: between(-30, 60).map((value) => Number(value.toFixed(1))),
      humidity: between(1, 100).map((value) => Number(value.toFixed(1))),
    });
    let frosts = 0;
    await fc.assert(
      fc.asyncProperty(airs, async ({ temperature, humidity }) => {
        const air = { temperature: celsius(temperature), humidity: si(humidity / 100, 'ratio') };
        const scanned = warmestWhere((at) => {
          const wet = wetness(air, celsius(at));
          return wet.kind === 'value' && wet.value !== 'dry';
        });
        const found = await foundBelow(damp(temperature, humidity), 'wet-glass');
        expect(found === undefined).toBe(scanned === undefined);
        if (found === undefined || scanned === undefined) return;
        expect(Math.abs(found - scanned)).toBeLessThanOrEqual(grain + rounding);
        if (found < 0) frosts += 1;
      }),
      { numRuns: 500, ...seed() },
    );
    expect(frosts).toBeGreaterThan(50);
  });
});

function damp(temperature: number, humidity: number): string {
  return `reading glass-temperature: ${thermometer.low} °C to ${thermometer.high} °C
act press-resin
assume glass { temperature glass-temperature }
assume filling { during press-resin }
assume air { temperature ${temperature} °C; humidity ${humidity} % }
procedure chip {
  step "Read" { read glass-temperature }
  step "Press" { do press-resin }
}
`;
}
