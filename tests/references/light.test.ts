import {
  celsius,
  degrees,
  distanceFor,
  doseOver,
  irradianceAt,
  irradianceForOpenTime,
  type Metre,
  openTimeUnder,
  type Placing,
  positionsAlong,
  positionsOver,
  type Ratio,
  type Second,
  si,
  timeForDose,
  type WattPerSquareMetre,
} from '@quarrel/process';
import { describe, expect, test } from 'vitest';
import { compare, exact, known, type Published, printed } from './published.js';

const photometry = 'worked example by the laws of photometry';

const milliWatt = (number: number): WattPerSquareMetre => si(number * 10, 'irradiance');
const joule = (number: number) => si(number * 1e4, 'dose');
const millimetres = (number: number): Metre => si(number / 1e3, 'length');
const seconds = (number: number): Second => si(number, 'time');
const share = (number: number): Ratio => si(number, 'ratio');

const lamp = { irradiance: milliWatt(50), distance: millimetres(50) };
const straight: Placing = { distance: millimetres(50), angle: degrees(0), output: share(1), passed: share(1) };
const inMilliWatt = (placing: Partial<Placing>) => () => known(irradianceAt(lamp, { ...straight, ...placing })) / 10;

const irradiances: readonly (readonly [string, Partial<Placing>, number, number])[] = [
  ['D2 at 75 mm', { distance: millimetres(75) }, 22.222, 1e-3],
  ['D2 at 100 mm', { distance: millimetres(100) }, 12.5, 1e-9],
  ['D3 tilted by 30°', { angle: degrees(30) }, 43.301, 1e-3],
  ['D3 tilted by 60°', { angle: degrees(60) }, 25, 1e-9],
  ['D4 at 75 mm, tilted by 30°', { distance: millimetres(75), angle: degrees(30) }, 19.245, 1e-3],
];

compare(
  'irradiance of a lamp of 50 mW/cm² at 50 mm',
  irradiances.map(
    ([what, placing, value, digit]): Published => ({
      what,
      value,
      unit: 'mW/cm²',
      computed: inMilliWatt(placing),
      tolerance: printed(digit),
      source: photometry,
    }),
  ),
);

compare('dose and time', [
  {
    what: 'D1 10 mW/cm² for 10 min',
    value: 6000,
    unit: 'mJ/cm²',
    computed: () => doseOver(milliWatt(10), seconds(600)) / 10,
    tolerance: exact,
    source: photometry,
  },
  {
    what: 'q 25 mW/cm² for 60 s',
    value: 1.5,
    unit: 'J/cm²',
    computed: () => doseOver(milliWatt(25), seconds(60)) / 1e4,
    tolerance: exact,
    source: photometry,
  },
  {
    what: 'D5 3 J/cm² at 22.222 mW/cm²',
    value: 135,
    unit: 's',
    computed: () => timeForDose(joule(3), milliWatt(22.222)),
    tolerance: { by: 'share', size: 2.3e-5, why: 'the irradiance has five digits' },
    source: photometry,
  },
  ...(
    [
      [0.9, 66.67, 0.01],
      [0.29, 206.9, 0.1],
      [0.04, 1500, 1e-6],
    ] as const
  ).map(
    ([passed, value, digit]): Published => ({
      what: `D6 3 J/cm² from 50 mW/cm² of which ${passed} comes through`,
      value,
      unit: 's',
      computed: () => timeForDose(joule(3), known(irradianceAt(lamp, { ...straight, passed: share(passed) }))),
      tolerance: printed(digit),
      source: photometry,
    }),
  ),
  ...(
    [
      [0.05, 10],
      [0.5, 100],
      [1, 200],
      [3, 600],
    ] as const
  ).map(
    ([dose, value]): Published => ({
      what: `D7 ${dose} J/cm² of sun, 50 W/m² of UV-A`,
      value,
      unit: 's',
      computed: () => timeForDose(joule(dose), si(50, 'irradiance')),
      tolerance: exact,
      source: photometry,
    }),
  ),
  ...(
    [
      ['E1 sun behind thin cloud', 10, 1000],
      ['E2 strong sun', 50, 200],
      ['E3', 100, 100],
      ['E4 lamp of 50 mW/cm²', 500, 20],
    ] as const
  ).map(
    ([what, watts, value]): Published => ({
      what: `${what}: ${watts} W/m² to the day's limit of the eye, 10⁴ J/m²`,
      value,
      unit: 's',
      computed: () => timeForDose(si(1e4, 'dose'), si(watts, 'irradiance')),
      tolerance: exact,
      source: 'ICNIRP 2004 and Directive 2006/25/EC, limit from memory',
    }),
  ),
]);

/** `open-time 4 min under 1 mW/cm²`: 2400 J/m². */
const open = { time: seconds(240), under: milliWatt(1) };

compare('open time', [
  {
    what: 'gel dose 0.5 J/cm² under 50 W/m²',
    value: 100,
    unit: 's',
    computed: () => openTimeUnder({ time: seconds(500), under: milliWatt(1) }, si(50, 'irradiance')),
    tolerance: exact,
    source: photometry,
  },
  {
    what: 'the same behind a shade that lets 10 % through',
    value: 1000,
    unit: 's',
    computed: () => openTimeUnder({ time: seconds(500), under: milliWatt(1) }, si(5, 'irradiance')),
    tolerance: exact,
    source: photometry,
  },
  {
    what: '4 min under 1 mW/cm² are gone in sun of 50 W/m² after',
    value: 48,
    unit: 's',
    computed: () => openTimeUnder(open, si(50, 'irradiance')),
    tolerance: exact,
    source: photometry,
  },
  {
    what: 'irradiance under which it stays open for 24 min',
    value: 1 / 6,
    unit: 'mW/cm²',
    computed: () => known(irradianceForOpenTime(open, seconds(1440))) / 10,
    tolerance: exact,
    source: photometry,
  },
]);

compare(
  'positions of a lamp',
  (
    [
      ['a crack of 60 mm under a spot of 60 mm', positionsAlong(millimetres(60), millimetres(60)), 1],
      ['a crack of 61 mm under a spot of 60 mm', positionsAlong(millimetres(61), millimetres(60)), 2],
      ['a crack of 150 mm under a spot of 60 mm', positionsAlong(millimetres(150), millimetres(60)), 3],
      ['a crack of 180 mm under a spot of 60 mm', positionsAlong(millimetres(180), millimetres(60)), 3],
      ['a disc as large as the spot', positionsOver(millimetres(20), millimetres(20)), 1],
      ['a disc 1.15 times the spot', positionsOver(millimetres(23), millimetres(20)), 3],
      ['a disc 1.4 times the spot', positionsOver(millimetres(28), millimetres(20)), 4],
      ['a disc 1.6 times the spot', positionsOver(millimetres(32), millimetres(20)), 5],
      ['a disc twice the spot', positionsOver(millimetres(40), millimetres(20)), 7],
    ] as const
  ).map(
    ([what, answer, value]): Published => ({
      what,
      value,
      unit: 'positions',
      computed: () => answer,
      tolerance: exact,
      source: 'covering of a disc by equal discs, from memory',
    }),
  ),
);

describe('traps', () => {
  test('10 W/m² are 1 mW/cm²: the factor is 10, not 10 000', () => {
    expect(known(irradianceAt(lamp, straight))).toBe(500);
  });

  test('a lamp held nearer than its datasheet says gains nothing, and the answer says so', () => {
    const answer = irradianceAt(lamp, { ...straight, distance: millimetres(10) });
    expect(answer).toEqual({ kind: 'value', value: 500, caveats: ['nearer-than-given'] });
  });

  test('a lamp too weak at its own distance is at no distance strong enough', () => {
    expect(distanceFor(lamp, straight, milliWatt(51))).toMatchObject({ kind: 'outside', of: 'irradiance', most: 500 });
  });

  test('without light there is no time', () => {
    expect(timeForDose(joule(1), milliWatt(0))).toEqual({ kind: 'none', because: 'no-light' });
    expect(openTimeUnder(open, milliWatt(0))).toEqual({ kind: 'none', because: 'no-light' });
  });

  test('a break of more than twice the spot is not covered by seven positions', () => {
    expect(positionsOver(millimetres(41), millimetres(20))).toMatchObject({ kind: 'outside', of: 'diameter' });
  });

  test('a temperature does not pass for a share', () => {
    // @ts-expect-error: another measure
    expect(irradianceAt(lamp, { ...straight, passed: celsius(20) })).toMatchObject({ kind: 'outside', of: 'passed' });
  });
});
