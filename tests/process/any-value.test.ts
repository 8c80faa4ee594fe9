import {
  type Air,
  type Answer,
  airLeft,
  altitudeOfPressure,
  calibrateGap,
  coneRadius,
  coneTime,
  dewPoint,
  distanceFor,
  gapToFill,
  humidityAtGlass,
  humidityThatWets,
  irradianceAt,
  irradianceForDose,
  irradianceForOpenTime,
  type Kelvin,
  type Lamp,
  type Liquid,
  lagOf,
  legLength,
  legTime,
  type Measure,
  openTimeUnder,
  positionsAlong,
  positionsOver,
  pressureAtAltitude,
  pressureLeft,
  type Si,
  saturationOverIce,
  si,
  temperatureAt,
  temperatureToFill,
  timeForDose,
  timeToChange,
  viscosityAt,
  viscosityCurve,
  viscosityToFill,
  volumeAt,
  wetBelow,
  wetness,
} from '@quarrel/process';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { between, logarithmic } from './arbitrary.js';

/** Any number that a sheet could hold, and those that it could not; often one that makes sense. */
const number: fc.Arbitrary<number> = fc.oneof(
  logarithmic(1e-9, 1e9),
  between(-50, 400),
  fc.constantFrom(0, -0, 1, -1, 1e-300, 1e300, 1e308, -1e308, Number.NaN, Infinity, -Infinity),
  fc.double(),
);

/** Numbers for as many arguments as a question has. */
type Next = <M extends Measure>(measure: M) => Si<M>;

const gap = (next: Next) => ({ gap: next('length'), contactAngle: next('angle') });
const leg = (next: Next) => ({ ...gap(next), length: next('length') });
const liquid = (next: Next): Liquid => ({ viscosity: next('viscosity'), surfaceTension: next('surface-tension') });
const point = (next: Next) => ({ temperature: next('temperature'), viscosity: next('viscosity') });
const lamp = (next: Next): Lamp => ({ irradiance: next('irradiance'), distance: next('length') });
const stand = (next: Next) => ({ angle: next('angle'), output: next('ratio'), passed: next('ratio') });
const air = (next: Next): Air => ({ temperature: next('temperature'), humidity: next('ratio') });
const open = (next: Next) => ({ time: next('time'), under: next('irradiance') });
const curve = (next: Next) => viscosityCurve([point(next), point(next), point(next)]);

const kelvin = (next: Next): Kelvin => next('temperature');

/** What can be asked, each with any numbers at all. */
const questions: Readonly<Record<string, (next: Next) => Answer<unknown>>> = {
  legTime: (next) => legTime(leg(next), liquid(next), next('pressure')),
  legLength: (next) => legLength(gap(next), liquid(next), next('pressure'), next('time')),
  coneTime: (next) =>
    coneTime({ ...gap(next), inner: next('length'), outer: next('length') }, liquid(next), next('pressure')),
  coneRadius: (next) => coneRadius(gap(next), next('length'), liquid(next), next('pressure'), next('time')),
  viscosityToFill: (next) => viscosityToFill(leg(next), next('surface-tension'), next('pressure'), next('time')),
  gapToFill: (next) => gapToFill(leg(next), liquid(next), next('pressure'), next('time')),
  calibrateGap: (next) =>
    calibrateGap(
      [1, 2, 3].map(() => ({ leg: leg(next), liquid: liquid(next), push: next('pressure'), time: next('time') })),
    ),
  viscosityCurve: curve,
  viscosityAt: (next) => {
    const through = curve(next);
    return through.kind === 'value' ? viscosityAt(through.value, kelvin(next)) : through;
  },
  temperatureAt: (next) => {
    const through = curve(next);
    return through.kind === 'value' ? temperatureAt(through.value, next('viscosity')) : through;
  },
  temperatureToFill: (next) => {
    const through = curve(next);
    if (through.kind !== 'value') return through;
    const resin = { curve: through.value, surfaceTension: next('surface-tension') };
    return temperatureToFill(leg(next), resin, next('pressure'), next('time'));
  },
  irradianceAt: (next) => irradianceAt(lamp(next), { ...stand(next), distance: next('length') }),
  distanceFor: (next) => distanceFor(lamp(next), stand(next), next('irradiance')),
  timeForDose: (next) => timeForDose(next('dose'), next('irradiance')),
  irradianceForDose: (next) => irradianceForDose(next('dose'), next('time')),
  positionsAlong: (next) => positionsAlong(next('length'), next('length')),
  positionsOver: (next) => positionsOver(next('length'), next('length')),
  openTimeUnder: (next) => openTimeUnder(open(next), next('irradiance')),
  irradianceForOpenTime: (next) => irradianceForOpenTime(open(next), next('time')),
  saturationOverIce: (next) => saturationOverIce(kelvin(next)),
  dewPoint: (next) => dewPoint(air(next)),
  wetBelow: (next) => wetBelow(air(next)),
  humidityAtGlass: (next) => humidityAtGlass(air(next), kelvin(next)),
  humidityThatWets: (next) => humidityThatWets(kelvin(next), kelvin(next)),
  wetness: (next) => wetness(air(next), kelvin(next)),
  pressureAtAltitude: (next) => pressureAtAltitude(next('length')),
  altitudeOfPressure: (next) => altitudeOfPressure(next('pressure')),
  pressureLeft: (next) => pressureLeft({ kind: 'gauge', below: next('pressure') }, next('pressure')),
  airLeft: (next) => airLeft({ kind: 'share', of: next('ratio') }, next('pressure')),
  volumeAt: (next) => volumeAt(next('volume'), next('pressure'), next('pressure')),
  lagOf: (next) => lagOf({ outer: next('length'), film: next('length'), inner: next('length') }),
  timeToChange: (next) => timeToChange(next('temperature-difference'), next('temperature-difference'), next('time')),
};

test.each(Object.entries(questions))(
  '%s answers whatever the numbers, and never with a number that is none',
  (_, ask) => {
    fc.assert(
      fc.property(fc.array(number, { minLength: 20, maxLength: 20 }), (numbers) => {
        let used = 0;
        const next: Next = (measure) => si(numbers[used++] ?? 1, measure);
        const answer = ask(next);
        if (answer.kind !== 'value') return;
        const values = typeof answer.value === 'object' ? Object.values(answer.value ?? {}) : [answer.value];
        expect(values.filter((each) => typeof each === 'number' && !Number.isFinite(each))).toEqual([]);
      }),
      { numRuns: 1000 },
    );
  },
);
