import {
  calibrateGap,
  capillaryPull,
  coneTime,
  degrees,
  type Leg,
  type Liquid,
  legLength,
  legTime,
  type Pascal,
  si,
  slotSpeed,
  studentT95,
  viscosityToFill,
} from '@quarrel/process';
import { describe, expect, test } from 'vitest';
import { compare, exact, known, type Published, printed } from './published.js';

const worked = 'worked example by the formula of plane Poiseuille flow';

const leg = (millimetres: number, micrometres: number, angle: number): Leg => ({
  length: si(millimetres / 1e3, 'length'),
  gap: si(micrometres / 1e6, 'length'),
  contactAngle: degrees(angle),
});

const liquid = (milliPascalSeconds: number, milliNewtonPerMetre: number): Liquid => ({
  viscosity: si(milliPascalSeconds / 1e3, 'viscosity'),
  surfaceTension: si(milliNewtonPerMetre / 1e3, 'surface-tension'),
});

const kilo = (kilopascals: number): Pascal => si(kilopascals * 1e3, 'pressure');

/** Leg, liquid, pressure in kPa, seconds, last digit printed. */
const fills: readonly (readonly [id: string, Leg, Liquid, number, number, number, string])[] = [
  [
    'S1 underfill',
    leg(11.3, 50, 15),
    liquid(42.6, 23),
    0,
    14.69,
    0.01,
    'inputs of a published exercise on underfill, result worked out apart',
  ],
  ['S2 capillary pull alone', leg(10, 10, 30), liquid(50, 30), 0, 57.735, 1e-3, worked],
  ['S3 with pressure', leg(10, 10, 30), liquid(50, 30), 80, 3.5213, 1e-4, worked],
  ['S4 no capillary pull', leg(10, 10, 90), liquid(50, 30), 80, 3.75, 1e-9, worked],
  ['S5 fine gap', leg(25, 2, 20), liquid(100, 35), 60, 1009.27, 0.01, worked],
  [
    'S6 water',
    leg(50, 100, 0),
    liquid(1.0016, 72.75),
    0,
    1.0326,
    1e-4,
    'IAPWS R1-76 and R12-08 (from memory), worked example',
  ],
  ['q leg of a star', leg(20, 3, 0), liquid(35, 33), 100, 76.5, 0.1, 'our own estimate, worked out apart'],
  ['q the same, thicker resin', leg(20, 3, 0), liquid(120, 33), 100, 262, 1, 'our own estimate, worked out apart'],
  ['q the same, finer gap', leg(20, 1, 0), liquid(35, 33), 100, 506, 1, 'our own estimate, worked out apart'],
];

compare('time to fill a leg', [
  ...fills.map(
    ([what, of, resin, pressure, value, digit, source]): Published => ({
      what,
      value,
      unit: 's',
      computed: () => legTime(of, resin, kilo(pressure)),
      tolerance: printed(digit),
      source,
    }),
  ),
  {
    what: 'S6 a tube of the same width takes 4/3 as long: t = 2μL²/(rγ)',
    value: 0.75,
    unit: '',
    computed: () =>
      known(legTime(leg(50, 100, 0), liquid(1.0016, 72.75), kilo(0))) /
      ((2 * 1.0016e-3 * 0.05 ** 2) / (50e-6 * 72.75e-3)),
    tolerance: exact,
    source: 'Washburn 1921, Phys. Rev. 17:273',
  },
]);

compare('length in a time: the same examples turned round', [
  ...fills.slice(1, 6).map(
    ([what, of, resin, pressure, seconds, digit, source]): Published => ({
      what,
      value: of.length * 1e3,
      unit: 'mm',
      computed: () => known(legLength(of, resin, kilo(pressure), si(seconds, 'time'))) * 1e3,
      tolerance: {
        by: 'share',
        size: (0.25000001 * digit) / seconds + 1e-12,
        why: 'length goes with the root of time: half the share of the last digit printed',
      },
      source,
    }),
  ),
]);

compare('parts of the formula', [
  {
    what: 'S2 capillary pull',
    value: 5196.15,
    unit: 'Pa',
    computed: () => capillaryPull(leg(10, 10, 30), si(0.03, 'surface-tension')),
    tolerance: printed(0.01),
    source: worked,
  },
  {
    what: 'S5 capillary pull',
    value: 32_889,
    unit: 'Pa',
    computed: () => capillaryPull(leg(25, 2, 20), si(0.035, 'surface-tension')),
    tolerance: printed(1),
    source: worked,
  },
  {
    what: 'q driving pressure',
    value: 122,
    unit: 'kPa',
    computed: () => 100 + capillaryPull(leg(20, 3, 0), si(0.033, 'surface-tension')) / 1e3,
    tolerance: printed(1),
    source: 'our own estimate, worked out apart',
  },
  {
    what: 'S7 speed between plates 100 µm apart, 1 mPa·s, 1 MPa/m',
    value: 0.83333,
    unit: 'm/s',
    computed: () => slotSpeed(si(1e-4, 'length'), si(1e-3, 'viscosity'), 1e6),
    tolerance: printed(1e-5),
    source: worked,
  },
  {
    what: 'S4 viscosity that fills in 3.75 s',
    value: 50,
    unit: 'mPa·s',
    computed: () =>
      known(viscosityToFill(leg(10, 10, 90), si(0.03, 'surface-tension'), kilo(80), si(3.75, 'time'))) * 1e3,
    tolerance: exact,
    source: worked,
  },
  {
    what: 'S8 cone from 1 mm to 10 mm',
    value: 6.778,
    unit: 's',
    computed: () => {
      const cone = { ...leg(10, 10, 90), inner: si(1e-3, 'length'), outer: si(1e-2, 'length') };
      return coneTime(cone, liquid(50, 30), kilo(80));
    },
    tolerance: printed(1e-3),
    source: 'worked example, radial flow between plates',
  },
]);

compare(
  "Student's t, two-sided 95 %",
  (
    [
      [2, 4.303],
      [3, 3.182],
      [5, 2.571],
      [9, 2.262],
      [10, 2.228],
      [15, 2.131],
      [20, 2.086],
      [30, 2.042],
      [60, 2.0],
      [120, 1.98],
    ] as const
  ).map(
    ([freedom, value]): Published => ({
      what: `${freedom} degrees of freedom`,
      value,
      unit: '',
      computed: () => studentT95(freedom),
      tolerance: printed(1e-3),
      source: 'any table of it, from memory',
    }),
  ),
);

describe('traps', () => {
  test.each([
    [91, 0],
    [120, 0],
    [120, 3],
    [180, 6],
  ])('a resin that meets the glass at %d° and is pushed with %d kPa never fills', (angle, pressure) => {
    const answer = legTime(leg(10, 10, angle), liquid(50, 30), kilo(pressure));
    expect(answer).toEqual({ kind: 'none', because: 'never-fills' });
  });

  test('pressure beyond the capillary push fills all the same', () => {
    expect(known(legTime(leg(10, 10, 120), liquid(50, 30), kilo(3.1)))).toBeGreaterThan(0);
  });

  test('a value out of reason is answered, not computed with', () => {
    expect(legTime(leg(10, 0, 0), liquid(50, 30), kilo(80))).toMatchObject({ kind: 'outside', of: 'gap' });
    expect(legTime(leg(10, 10, 200), liquid(50, 30), kilo(80))).toMatchObject({ kind: 'outside', of: 'contact angle' });
    expect(legTime(leg(10, 10, 0), liquid(50, 30), kilo(-1))).toMatchObject({ kind: 'outside', of: 'pressure' });
    expect(legTime(leg(Number.NaN, 10, 0), liquid(50, 30), kilo(1))).toMatchObject({ kind: 'outside', of: 'length' });
  });

  test('a gap is not calibrated from two repairs', () => {
    const repair = { leg: leg(20, 3, 0), liquid: liquid(35, 33), push: kilo(100), time: si(76, 'time') };
    expect(calibrateGap([repair, repair])).toEqual({ kind: 'none', because: 'too-few-repairs' });
  });

  test('repairs that disagree make an unsure gap', () => {
    const repairs = [20, 80, 600].map((seconds) => ({
      leg: leg(20, 3, 0),
      liquid: liquid(35, 33),
      push: kilo(100),
      time: si(seconds, 'time'),
    }));
    expect(calibrateGap(repairs)).toMatchObject({ kind: 'value', caveats: ['unsure-gap'] });
  });
});
