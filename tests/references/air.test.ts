import {
  type Air,
  celsius,
  dewPoint,
  humidityAtGlass,
  type Ratio,
  saturationOverIce,
  saturationOverWater,
  si,
  wetBelow,
  wetness,
  whenKnown,
} from '@quarrel/process';
import psychrolib from 'psychrolib';
import { describe, expect, test } from 'vitest';
import { amount, compare, known, type Published, share, type Tolerance } from './published.js';

psychrolib.SetUnitSystem(psychrolib.SI);

const percent = (number: number): Ratio => si(number / 100, 'ratio');
const air = (degrees: number, humidity: number): Air => ({
  temperature: celsius(degrees),
  humidity: percent(humidity),
});
const inCelsius = (answer: ReturnType<typeof dewPoint>) =>
  whenKnown(answer, (kelvin) => ({ ...answerOf(kelvin - 273.15) }));
const answerOf = (value: number) => ({ kind: 'value', value, caveats: [] }) as const;

/** One source's saturation pressures in Pa by °C. */
function saturation(
  source: string,
  tolerance: Tolerance,
  over: typeof saturationOverWater,
  values: readonly (readonly [degrees: number, pascal: number])[],
): readonly Published[] {
  return values.map(([degrees, value]) => ({
    what: `${over === saturationOverIce ? 'over ice' : 'over water'} at ${degrees} °C`,
    value,
    unit: 'Pa',
    computed: () => over(celsius(degrees)),
    tolerance,
    source,
  }));
}

const crc = 'CRC Handbook 1992-93, vapour pressure of water';
const if97 = 'IAPWS-IF97 region 4, computed apart';

compare('saturation pressure', [
  ...saturation(
    crc,
    share(1e-3, 'CRC lies up to 0.07 % below IAPWS, by the older temperature scale'),
    saturationOverWater,
    [
      [0, 611.29],
      [5, 872.6],
      [10, 1228.1],
      [15, 1705.6],
      [20, 2338.8],
      [25, 3169.0],
      [30, 4245.5],
      [35, 5626.7],
      [40, 7381.4],
      [50, 12_344],
      [60, 19_932],
    ],
  ),
  ...saturation(if97, share(2e-4, 'Sonntag claims no more than a few parts in ten thousand'), saturationOverWater, [
    [0.01, 611.657],
    [5, 872.57],
    [10, 1228.18],
    [20, 2339.21],
    [30, 4246.69],
    [40, 7384.43],
    [60, 19_945.8],
  ]),
  ...saturation(
    'Sonntag 1994, computed apart',
    share(2e-5, 'the same formula; five digits printed'),
    saturationOverWater,
    [
      [-10, 286.52],
      [-5, 421.8],
      [25, 3169.9],
      [50, 12_352.7],
    ],
  ),
  ...saturation('IAPWS 2011 sublimation, computed apart', share(2e-4, 'as over water'), saturationOverIce, [
    [0, 611.15],
    [-5, 401.74],
    [-10, 259.87],
    [-20, 103.24],
  ]),
  ...[5, 15, 20, 25, 30, 35, 40, 50].map(
    (degrees): Published => ({
      what: `over water at ${degrees} °C`,
      value: psychrolib.GetSatVapPres(degrees),
      unit: 'Pa',
      computed: () => saturationOverWater(celsius(degrees)),
      tolerance: share(3e-4, 'Hyland-Wexler and Sonntag differ by up to 0.025 %'),
      source: 'psychrolib 1.1.1, ASHRAE',
    }),
  ),
]);

/** Air temperature in °C, relative humidity in %, dew point in °C. */
const dewPoints = [
  [20, 60, 12.008],
  [20, 50, 9.274],
  [20, 40, 6.006],
  [25, 50, 13.865],
  [25, 60, 16.702],
  [30, 70, 23.928],
  [35, 40, 19.386],
  [10, 80, 6.713],
  [15, 90, 13.375],
  [30, 30, 10.55],
  [40, 20, 12.785],
] as const;

compare('dew point', [
  ...dewPoints.map(
    ([degrees, humidity, value]): Published => ({
      what: `air of ${degrees} °C and ${humidity} %`,
      value,
      unit: '°C',
      computed: () => inCelsius(dewPoint(air(degrees, humidity))),
      tolerance: amount(0.003, '0.02 % of vapour pressure are 0.003 K of dew point'),
      source: 'Wagner and Pruss, computed apart',
    }),
  ),
  ...dewPoints.map(
    ([degrees, humidity]): Published => ({
      what: `air of ${degrees} °C and ${humidity} %`,
      value: psychrolib.GetTDewPointFromRelHum(degrees, humidity / 100),
      unit: '°C',
      computed: () => inCelsius(dewPoint(air(degrees, humidity))),
      tolerance: amount(0.005, '0.025 % between Hyland-Wexler and Sonntag, and its own iteration stops at 0.001 K'),
      source: 'psychrolib 1.1.1, ASHRAE',
    }),
  ),
  {
    what: 'air of 20 °C and 60 %',
    value: 11.9955,
    unit: '°C',
    computed: () => inCelsius(dewPoint(air(20, 60))),
    tolerance: amount(0.03, "Magnus' formula is up to 0.31 % off in pressure, near 0.03 K"),
    source: 'dewpoint 1.0.0 (Magnus), read once',
  },
  {
    what: 'air of 5 °C and 70 %, over supercooled water',
    value: -0.022,
    unit: '°C',
    computed: () => inCelsius(dewPoint(air(5, 70))),
    tolerance: amount(0.03, 'published from Magnus, which is up to 0.03 K off'),
    source: 'Magnus, computed apart',
  },
  {
    what: 'frost point of air of 5 °C and 70 %',
    value: -0.02,
    unit: '°C',
    computed: () => inCelsius(wetBelow(air(5, 70))),
    tolerance: amount(0.03, 'published from Magnus, which is up to 0.03 K off'),
    source: 'Magnus, computed apart',
  },
]);

/** Air temperature in °C, humidity in %, glass temperature in °C, relative humidity at the glass in %. */
const atGlass = [
  [20, 60, 10, 114.2],
  [20, 60, 12.5, 96.7],
  [30, 70, 22, 112.4],
  [30, 70, 24.5, 96.6],
] as const;

compare(
  'relative humidity at the glass',
  atGlass.map(
    ([degrees, humidity, glass, value]): Published => ({
      what: `air of ${degrees} °C and ${humidity} %, glass of ${glass} °C`,
      value,
      unit: '%',
      computed: () => known(humidityAtGlass(air(degrees, humidity), celsius(glass))) * 100,
      tolerance: amount(0.15, 'published from Magnus, four digits'),
      source: 'Magnus, computed apart',
    }),
  ),
);

describe('traps', () => {
  test.each([
    [20, 60, 10, 'dew'],
    [20, 60, 11.99, 'dew'],
    [20, 60, 12.02, 'dry'],
    [30, 70, 22, 'dew'],
    [30, 70, 24.5, 'dry'],
    [2, 60, -8, 'frost'],
    [2, 60, 3, 'dry'],
    [20, 100, 20, 'dry'],
  ] as const)('air of %d °C and %d %%, glass of %d °C: %s', (degrees, humidity, glass, state) => {
    expect(known(wetness(air(degrees, humidity), celsius(glass)))).toBe(state);
  });

  test('below 0 °C frost settles on glass that is still too warm for dew', () => {
    const cold = air(-5, 90);
    const between = si((known(dewPoint(cold)) + known(wetBelow(cold))) / 2, 'temperature');
    expect(known(wetBelow(cold)) - known(dewPoint(cold))).toBeGreaterThan(0.5);
    expect(known(wetness(cold, between))).toBe('frost');
  });
});
