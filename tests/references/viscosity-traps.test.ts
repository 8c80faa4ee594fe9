import { celsius, rangeOf, temperatureAt, viscosityAt, viscosityCurve, whenKnown } from '@quarrel/process';
import { describe, expect, test } from 'vitest';
import { at, curveOf, glycerol, milli, type Table, water } from './liquids.js';
import { known } from './published.js';

describe('traps', () => {
  test.each([
    ['water', water, -8.7],
    ['glycerol', glycerol, -26.7],
  ] as const)('two points of %s are not used 20 K below, where they are %d %% low', (_, table, _share) => {
    const curve = curveOf(at(table, 20, 40));
    expect(viscosityAt(curve, celsius(0))).toMatchObject({ kind: 'outside', of: 'temperature', least: celsius(10) });
    expect(viscosityAt(curve, celsius(12))).toMatchObject({ kind: 'value', caveats: ['colder-than-data'] });
  });

  test("three points on Andrade's law: Vogel's law degenerates to it", () => {
    const onLaw = [0, 20, 40].map((degrees) => [degrees, 1e-4 * Math.exp(3500 / celsius(degrees))] as const);
    const curve = curveOf(onLaw);
    expect(curve.t0).toBeLessThan(1e-6);
    expect(curve.worst).toBeLessThan(1e-9);
    expect(known(viscosityAt(curve, celsius(10))) * 1000).toBeCloseTo(1e-4 * Math.exp(3500 / celsius(10)), 8);
  });

  test('three points on a straight line in ln η, where t0 runs away, get Andrade and say that it fits loosely', () => {
    const curve = curveOf([
      [0, 400],
      [20, 200],
      [40, 100],
    ]);
    expect(curve).toMatchObject({ law: 'andrade', t0: 0 });
    expect(curve.worst).toBeGreaterThan(0);
    expect(curve.worst).toBeLessThan(0.05);
    const bent = curveOf([
      [0, 400],
      [20, 300],
      [40, 100],
    ]);
    expect(viscosityAt(bent, celsius(20))).toMatchObject({ kind: 'value', caveats: ['fits-loosely'] });
  });

  test('three points that bend less than Andrade, where t0 would lie below 0 K, get Andrade', () => {
    expect(
      curveOf([
        [0, 400],
        [20, 200],
        [40, 103],
      ]),
    ).toMatchObject({ law: 'andrade', t0: 0 });
    expect(
      curveOf([
        [0, 400],
        [20, 160],
        [40, 78],
      ]),
    ).toMatchObject({ law: 'vogel' });
  });

  test.each([
    ['two', at(water, 20, 40), 10, 50],
    ['three', at(water, 20, 30, 40), 0, 60],
  ])('%s points are used as far as the margin and no farther', (_, table, coldest, warmest) => {
    const kinds = [coldest - 0.1, coldest + 0.1, warmest - 0.1, warmest + 0.1].map(
      (degrees) => viscosityAt(curveOf(table), celsius(degrees)).kind,
    );
    expect(kinds).toEqual(['outside', 'value', 'value', 'outside']);
  });

  test('two viscosities at one temperature, or nearly one, are refused; the same one twice is one', () => {
    const point = (degrees: number, number: number) => ({ temperature: celsius(degrees), viscosity: milli(number) });
    const refused = { kind: 'none', because: 'two-values-at-one-temperature' };
    expect(viscosityCurve([point(20, 35), point(20, 34)])).toEqual(refused);
    expect(viscosityCurve([point(20, 35), point(20.4, 34)])).toEqual(refused);
    expect(known(viscosityCurve([point(20, 35), point(20.6, 34)])).law).toBe('andrade');
    expect(known(viscosityCurve([point(20, 35), point(20, 35)])).law).toBe('as-given');
  });

  test('what has to be told beside a viscosity is told beside what is computed from it', () => {
    const length = whenKnown(viscosityAt(curveOf([[20, 35]]), celsius(5)), (viscosity) => ({
      kind: 'value',
      value: viscosity * 2,
      caveats: ['unsure-gap', 'single-point-colder'],
    }));
    expect(length).toMatchObject({ caveats: ['single-point-colder', 'unsure-gap'] });
    const alone = whenKnown(viscosityAt(curveOf([[20, 35]]), celsius(5)), (viscosity) => ({
      kind: 'value',
      value: viscosity * 2,
      caveats: [],
    }));
    expect(alone).toMatchObject({ caveats: ['single-point-colder'] });
  });

  test('viscosity that rises or stays as it warms is refused', () => {
    for (const table of [
      [
        [0, 20],
        [20, 30],
      ],
      [
        [0, 20],
        [20, 20],
      ],
      [
        [0, 90],
        [20, 30],
        [40, 31],
      ],
    ] as const) {
      const points = table.map(([degrees, number]) => ({ temperature: celsius(degrees), viscosity: milli(number) }));
      expect(viscosityCurve(points)).toEqual({ kind: 'none', because: 'viscosity-does-not-fall' });
    }
  });

  test('one point bounds the viscosity from below where it is colder and tells no temperature', () => {
    const curve = curveOf([[20, 35]]);
    const answers = [5, 20, 30].map((degrees) => viscosityAt(curve, celsius(degrees)));
    expect(answers.map((answer) => (answer.kind === 'value' ? answer.caveats : []))).toEqual([
      ['single-point-colder'],
      ['single-point'],
      ['single-point-warmer'],
    ]);
    expect(answers.map((answer) => known(answer))).toEqual(
      [0.035, 0.035, 0.035].map((each) => expect.closeTo(each, 12)),
    );
    expect(temperatureAt(curve, milli(50))).toEqual({ kind: 'none', because: 'single-point-has-no-slope' });
  });

  test('four points that bend less than Andrade get Andrade as well', () => {
    const table: Table = [
      [0, 400],
      [10, 285],
      [20, 200],
      [40, 103],
    ];
    expect(curveOf(table)).toMatchObject({ law: 'andrade', t0: 0 });
  });

  test('a wall keeps its pole 1 K away, misses a point and says so', () => {
    const wall = curveOf([
      [0, 1e8],
      [1, 10.1],
      [40, 10],
    ]);
    expect(wall.coldest - wall.t0).toBeCloseTo(1, 9);
    expect(viscosityAt(wall, celsius(20))).toMatchObject({ caveats: ['fits-loosely'] });
  });

  test('a steep curve is not used near its pole', () => {
    const curve = curveOf([
      [0, 1e6],
      [5, 1000],
      [40, 100],
    ]);
    expect(rangeOf(curve).least).toBeGreaterThan(curve.t0);
    expect(curve.coldest - rangeOf(curve).least).toBeLessThan(2);
  });
});
