import {
  altitudeOfPressure,
  celsius,
  changeInTime,
  degrees,
  dewPoint,
  differenceAtPace,
  differenceForStress,
  distanceFor,
  doseOver,
  type Held,
  humidityAtGlass,
  humidityThatWets,
  irradianceAt,
  irradianceForDose,
  irradianceForOpenTime,
  lagOf,
  openTimeUnder,
  paceFor,
  positionsOver,
  pressureAtAltitude,
  saturationOverIce,
  saturationOverWater,
  si,
  thermalStress,
  timeForDose,
  timeToChange,
  triplePoint,
  usualPane,
  wetBelow,
  wetness,
} from '@quarrel/process';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { known } from '../references/published.js';
import { between, logarithmic } from './arbitrary.js';

const lamp = fc.record({
  irradiance: logarithmic(1, 5000).map((watts) => si(watts, 'irradiance')),
  distance: logarithmic(5e-3, 0.2).map((metres) => si(metres, 'length')),
});

const stand = fc.record({
  angle: between(0, 80).map(degrees),
  output: between(0.05, 1).map((share) => si(share, 'ratio')),
  passed: between(0.02, 1).map((share) => si(share, 'ratio')),
});

describe('light', () => {
  test('doubling the distance quarters the irradiance of a point source', () => {
    fc.assert(
      fc.property(lamp, stand, between(1, 10), (of, how, times) => {
        const at = (distance: number): number => known(irradianceAt(of, { ...how, distance: si(distance, 'length') }));
        expect(at(of.distance * times) / at(of.distance * times * 2) / 4).toBeCloseTo(1, 9);
      }),
    );
  });

  test('irradiance never rises with distance, angle, age or what lies between', () => {
    fc.assert(
      fc.property(lamp, stand, logarithmic(1e-3, 1), between(1, 3), (of, how, distance, times) => {
        const placing = { ...how, distance: si(distance, 'length') };
        const irradiance = known(irradianceAt(of, placing));
        const less = [
          { ...placing, distance: si(distance * times, 'length') },
          { ...placing, angle: degrees(85) },
          { ...placing, output: si(how.output / times, 'ratio') },
          { ...placing, passed: si(how.passed / times, 'ratio') },
        ].map((each) => known(irradianceAt(of, each)));
        expect(Math.max(...less)).toBeLessThanOrEqual(irradiance * (1 + 1e-12));
      }),
    );
  });

  test('the greatest distance is the one at which the irradiance is still there', () => {
    fc.assert(
      fc.property(lamp, stand, between(1, 10), (of, how, times) => {
        const distance = si(of.distance * times, 'length');
        const irradiance = known(irradianceAt(of, { ...how, distance }));
        expect(known(distanceFor(of, how, irradiance)) / distance).toBeCloseTo(1, 9);
      }),
    );
  });

  test('dose and time, open time and irradiance are turned round exactly', () => {
    fc.assert(
      fc.property(logarithmic(0.01, 1e4), logarithmic(0.1, 1e5), logarithmic(0.1, 1e4), (watts, seconds, under) => {
        const [irradiance, time] = [si(watts, 'irradiance'), si(seconds, 'time')];
        const dose = doseOver(irradiance, time);
        expect(known(timeForDose(dose, irradiance)) / seconds).toBeCloseTo(1, 9);
        expect(known(irradianceForDose(dose, time)) / watts).toBeCloseTo(1, 9);
        const open = { time, under: si(under, 'irradiance') };
        const left = known(openTimeUnder(open, irradiance));
        expect(known(irradianceForOpenTime(open, left)) / watts).toBeCloseTo(1, 9);
      }),
    );
  });

  test('so many positions cover the break: a larger break never needs fewer, and none is left in the dark', () => {
    const spot = si(0.02, 'length');
    // Where the spots stand, in spot diameters from the middle of the break: the known best coverings.
    const ring = (count: number, radius: number): readonly [number, number][] =>
      Array.from({ length: count }, (_, index) => {
        const angle = (2 * Math.PI * index) / count;
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      });
    const stands: Readonly<Record<number, readonly (readonly [number, number])[]>> = {
      1: [[0, 0]],
      3: ring(3, 1 / (2 * Math.sqrt(3))),
      4: ring(4, 1 / 2),
      7: [[0, 0], ...ring(6, Math.sqrt(3) / 2)],
    };
    for (const [count, reach] of [
      [1, 1],
      [3, 2 / Math.sqrt(3)],
      [4, Math.SQRT2],
      [7, 2],
    ] as const) {
      expect(known(positionsOver(si(spot * reach * 0.999999, 'length'), spot))).toBe(count);
      if (count < 7) expect(known(positionsOver(si(spot * reach * 1.000001, 'length'), spot))).toBeGreaterThan(count);
      const places = [0.2, 0.4, 0.6, 0.8, 1].flatMap((share) => ring(720, (share * reach) / 2));
      const dark = places.filter(([x, y]) =>
        (stands[count] ?? []).every(([a, b]) => Math.hypot(x - a, y - b) > 0.5 + 1e-9),
      );
      expect(dark).toEqual([]);
    }
    expect(known(positionsOver(si(spot * 1.6, 'length'), spot))).toBe(5);
  });
});

const air = fc.record({
  temperature: between(-30, 50).map(celsius),
  humidity: between(0.02, 1).map((share) => si(share, 'ratio')),
});

describe('air', () => {
  test('the dew point is never above the temperature of the air, and is it in saturated air', () => {
    fc.assert(
      fc.property(air, (of) => {
        expect(known(dewPoint(of))).toBeLessThanOrEqual(of.temperature);
        const saturated = { ...of, humidity: si(1, 'ratio') };
        expect(known(dewPoint(saturated))).toBeCloseTo(of.temperature, 6);
      }),
    );
  });

  test('air at its dew point has the vapour pressure that it has', () => {
    fc.assert(
      fc.property(air, (of) => {
        const vapour = of.humidity * known(saturationOverWater(of.temperature));
        expect(known(saturationOverWater(known(dewPoint(of)))) / vapour).toBeCloseTo(1, 7);
      }),
    );
  });

  test('damper air wets warmer glass', () => {
    fc.assert(
      fc.property(air, between(0.5, 0.99), (of, share) => {
        const drier = { ...of, humidity: si(of.humidity * share, 'ratio') };
        expect(known(wetBelow(drier))).toBeLessThan(known(wetBelow(of)));
      }),
    );
  });

  test('glass is wet just below where it turns, and dry just above', () => {
    fc.assert(
      fc.property(air, (of) => {
        const turn = known(wetBelow(of));
        expect(known(wetness(of, si(turn - 1e-5, 'temperature')))).not.toBe('dry');
        expect(known(wetness(of, si(turn + 1e-5, 'temperature')))).toBe('dry');
      }),
    );
  });

  test('the humidity that wets glass makes it exactly saturated', () => {
    fc.assert(
      fc.property(air, between(0, 40), ({ temperature }, colder) => {
        const glass = si(temperature - colder - 0.5, 'temperature');
        const humidity = humidityThatWets(temperature, glass);
        expect(known(humidityAtGlass({ temperature, humidity: known(humidity) }, glass))).toBeCloseTo(1, 9);
      }),
    );
  });

  test('saturation rises with temperature; below the triple point ice holds less vapour than water, at it the same', () => {
    fc.assert(
      fc.property(between(-90, -0.1), between(0.001, 0.05), (at, rise) => {
        for (const over of [saturationOverWater, saturationOverIce]) {
          expect(known(over(celsius(at + rise)))).toBeGreaterThan(known(over(celsius(at))));
        }
        expect(known(saturationOverIce(celsius(at)))).toBeLessThan(known(saturationOverWater(celsius(at))));
      }),
    );
    const [ice, water] = [known(saturationOverIce(triplePoint)), known(saturationOverWater(triplePoint))];
    expect(ice / water).toBeCloseTo(1, 5);
  });

  test('altitude and pressure are turned round, and pressure falls with altitude', () => {
    fc.assert(
      fc.property(between(-1999, 10_999), (metres) => {
        const pressure = known(pressureAtAltitude(si(metres, 'length')));
        expect(known(altitudeOfPressure(pressure))).toBeCloseTo(metres, 5);
        expect(known(pressureAtAltitude(si(metres + 1, 'length')))).toBeLessThan(pressure);
      }),
    );
  });
});

describe('glass', () => {
  const held = fc.constantFrom<Held>('all-round', 'edge', 'through-thickness');

  test('stress and difference, change and time, pace and difference are turned round exactly', () => {
    fc.assert(
      fc.property(held, logarithmic(0.1, 200), logarithmic(1, 100), (how, kelvin, most) => {
        const difference = si(kelvin, 'temperature-difference');
        expect(differenceForStress(thermalStress(difference, how), how) / kelvin).toBeCloseTo(1, 9);
        const lag = known(lagOf(usualPane));
        const allowed = si(most, 'temperature-difference');
        const time = known(timeToChange(difference, allowed, lag));
        expect(changeInTime(time, allowed, lag) / kelvin).toBeCloseTo(1, 9);
        expect(differenceAtPace(paceFor(allowed, lag), lag) / most).toBeCloseTo(1, 9);
        expect(differenceAtPace(si(kelvin / time, 'pace'), lag) / most).toBeCloseTo(1, 9);
      }),
    );
  });

  test('thicker panes lag more', () => {
    fc.assert(
      fc.property(between(1.01, 4), (times) => {
        for (const part of ['outer', 'film', 'inner'] as const) {
          const thicker = { ...usualPane, [part]: si(usualPane[part] * times, 'length') };
          expect(known(lagOf(thicker))).toBeGreaterThan(known(lagOf(usualPane)));
        }
      }),
    );
  });
});
