import {
  airLeft,
  altitudeOfPressure,
  pressureAtAltitude,
  pressureLeft,
  pushOf,
  si,
  type Vacuum,
  vacuumDrawn,
  volumeAt,
} from '@quarrel/process';
import psychrolib from 'psychrolib';
import { describe, expect, test } from 'vitest';
import { amount, compare, known, type Published, printed, share } from './published.js';

psychrolib.SetUnitSystem(psychrolib.SI);

const inch = 3386.38864;
const sea = si(101_325, 'pressure');
const at = (metres: number) => known(pressureAtAltitude(si(metres, 'length')));
const gauge = (inches: number): Vacuum => ({ kind: 'gauge', below: si(inches * inch, 'pressure') });

/** Geopotential metres, Pa. */
const levels = [
  [-300, 104_981.2],
  [0, 101_325],
  [500, 95_460.8],
  [1000, 89_874.6],
  [1500, 84_556.0],
  [1609.344, 83_427.6],
  [2000, 79_495.2],
  [2500, 74_682.5],
  [3000, 70_108.5],
  [4000, 61_640.2],
  [1524, 84_307.3],
  [2438.4, 75_262.4],
  [3048, 69_681.7],
] as const;

compare('ambient pressure at an altitude', [
  ...levels.map(
    ([metres, value]): Published => ({
      what: `${metres} m`,
      value,
      unit: 'Pa',
      computed: () => pressureAtAltitude(si(metres, 'length')),
      tolerance: printed(0.1),
      source: 'U.S. Standard Atmosphere 1976 and ISO 2533:1975, constants seen, computed apart',
    }),
  ),
  ...[-300, 500, 1500, 3000, 4000].map(
    (metres): Published => ({
      what: `${metres} m`,
      value: psychrolib.GetStandardAtmPressure(metres),
      unit: 'Pa',
      computed: () => pressureAtAltitude(si(metres, 'length')),
      tolerance: share(5e-6, 'ASHRAE rounds the exponent to 5.2559'),
      source: 'psychrolib 1.1.1, ASHRAE',
    }),
  ),
  {
    what: '5000 ft in psi',
    value: 12.228,
    unit: 'psi',
    computed: () => at(1524) / 6894.757293168,
    tolerance: printed(1e-3),
    source: 'an engineering site',
  },
  {
    what: '-1000 ft in hPa',
    value: 1050.41,
    unit: 'hPa',
    computed: () => at(-304.8) / 100,
    tolerance: printed(0.01),
    source: 'a maker of pressure sensors',
  },
  {
    what: '10 000 ft in psi',
    value: 10.108,
    unit: 'psi',
    computed: () => at(3048) / 6894.757293168,
    tolerance: amount(0.003, 'trap: the page prints geometric height, we take geopotential, 0.02 % less at 3 km'),
    source: 'an engineering site',
  },
  {
    what: 'trap: 3000 m geometric',
    value: 70_121.2,
    unit: 'Pa',
    computed: () => pressureAtAltitude(si(3000, 'length')),
    tolerance: share(
      1.9e-4,
      'geometric height taken for geopotential: 0.018 % at 3000 m, a hundredth of what weather does',
    ),
    source: 'U.S. Standard Atmosphere 1976, table by geometric altitude, computed apart',
  },
  {
    what: 'altitude of 84 556.0 Pa',
    value: 1500,
    unit: 'm',
    computed: () => altitudeOfPressure(si(84_556, 'pressure')),
    tolerance: amount(0.005, '0.05 Pa are 5 mm'),
    source: 'U.S. Standard Atmosphere 1976, inverted',
  },
]);

compare('what a vacuum leaves', [
  {
    what: '25 inHg at sea level',
    value: 16.67,
    unit: 'kPa',
    computed: () => known(pressureLeft(gauge(25), sea)) / 1000,
    tolerance: printed(0.01),
    source: 'worked example',
  },
  {
    what: '28 inHg at sea level',
    value: 6.51,
    unit: 'kPa',
    computed: () => known(pressureLeft(gauge(28), sea)) / 1000,
    tolerance: printed(0.01),
    source: 'worked example',
  },
  {
    what: 'air left by 25 inHg at sea level',
    value: 16.4,
    unit: '%',
    computed: () => known(airLeft(gauge(25), sea)) * 100,
    tolerance: amount(0.051, 'the published value is cut, not rounded: 16.45'),
    source: 'worked example',
  },
  {
    what: 'air left by 28 inHg at sea level',
    value: 6.4,
    unit: '%',
    computed: () => known(airLeft(gauge(28), sea)) * 100,
    tolerance: printed(0.1),
    source: 'worked example',
  },
  {
    what: '20 inHg at 1500 m',
    value: 16.83,
    unit: 'kPa',
    computed: () => known(pressureLeft(gauge(20), at(1500))) / 1000,
    tolerance: printed(0.01),
    source: 'worked example',
  },
  {
    what: 'the altitude above which 25 inHg cannot be had',
    value: 1490.5,
    unit: 'm',
    computed: () => altitudeOfPressure(si(25 * inch, 'pressure')),
    tolerance: amount(1, '84.660 kPa lies between the levels of 1000 m and 1500 m; by the slope of 10.96 Pa/m there'),
    source: 'U.S. Standard Atmosphere 1976, by hand from its levels',
  },
  {
    what: 'Boyle: 5 mm³ from 101.325 kPa to 20 kPa',
    value: 25.331,
    unit: 'mm³',
    computed: () => known(volumeAt(si(5e-9, 'volume'), sea, si(20_000, 'pressure'))) * 1e9,
    tolerance: printed(1e-3),
    source: 'worked example',
  },
]);

describe('traps', () => {
  test('25 inHg cannot be had at 1500 m', () => {
    const answer = vacuumDrawn(gauge(25), at(1500));
    expect(answer).toMatchObject({ kind: 'outside', of: 'vacuum', most: at(1500) });
  });

  test('85 % is a share of ambient pressure, so it is less vacuum high up', () => {
    const share: Vacuum = { kind: 'share', of: si(0.85, 'ratio') };
    expect(known(vacuumDrawn(share, sea))).toBeCloseTo(86_126.25, 6);
    expect(known(vacuumDrawn(share, at(1500)))).toBeCloseTo(0.85 * at(1500), 6);
    expect(known(airLeft(share, at(1500)))).toBeCloseTo(0.15, 12);
  });

  test('a vacuum beyond ambient pressure pushes no harder than ambient does', () => {
    const none = si(0, 'pressure');
    expect(pushOf(none, si(95_000, 'pressure'), at(1500))).toBe(at(1500));
  });
});
