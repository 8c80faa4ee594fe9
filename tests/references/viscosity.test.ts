import { celsius, type ViscosityCurve, viscosityAt } from '@quarrel/process';
import {
  at,
  coarseGlycol,
  curveOf,
  cyclohexanol,
  glycerol,
  glycol,
  octanol,
  oil,
  type Table,
  water,
} from './liquids.js';
import { compare, known, type Published, printed, share, type Tolerance } from './published.js';

const iapws = 'IAPWS R12-08, 0.1 MPa equation, coefficients from memory';
const kayeLaby = 'Kaye and Laby 2.2.3';
const segur = 'Segur and Oberstar 1951, from memory';
const crc = 'CRC Handbook, viscosity of liquids, from memory';
const course = 'engineering table in a university course';
const ours = 'fit worked out apart';

/** IAPWS's equation for water at 0.1 MPa, not rounded; the parameters of V1 and V2 were found from it. */
function waterAt(degrees: number): Table[number] {
  const t = celsius(degrees) / 300;
  return [degrees, (280.68 * t ** -1.9 + 511.45 * t ** -7.7 + 61.131 * t ** -19.6 + 0.45903 * t ** -40) / 1000];
}

/** a (for mPa·s), b and t0 of ln η = a + b/(T − t0). */
function parameters(
  what: string,
  table: Table,
  [a, b, t0]: readonly [a: Published['value'], b: number, t0: number],
): readonly Published[] {
  const curve = curveOf(table);
  const row = (name: string, value: number, computed: number, tolerance: Tolerance): Published => ({
    what: `${what}, ${name}`,
    value,
    unit: name === 'a' ? '' : 'K',
    computed: () => computed,
    tolerance,
    source: ours,
  });
  return [
    row('a', a, curve.a + Math.log(1000), printed(1e-5)),
    row('b', b, curve.b, printed(1e-3)),
    ...(t0 === 0 ? [] : [row('t0', t0, curve.t0, printed(1e-3))]),
  ];
}

compare('parameters of fits', [
  ...parameters('V1 water, two points', [20, 40].map(waterAt), [Math.log(1.22817e-3), 1965.218, 0]),
  ...parameters('V2 water, three points', [10, 30, 60].map(waterAt), [-3.48221, 494.613, 151.222]),
  ...parameters('V3 glycerol, two points', at(glycerol, 20, 40), [Math.log(1.79124e-8), 7354.876, 0]),
  ...parameters('V4 glycerol, three points', at(glycerol, 10, 30, 60), [-5.89021, 1881.785, 150.246]),
  ...parameters('V5 glycerol, three points', at(glycerol, 0, 20, 40), [-5.37986, 1738.767, 155.494]),
  ...parameters('V6 ethylene glycol, two points', at(glycol, 25, 50), [Math.log(1.49431e-4), 3454.07, 0]),
  ...parameters('V7 ethylene glycol, three points', at(glycol, 25, 50, 100), [-3.55866, 961.062, 146.443]),
  ...parameters('V8 ethylene glycol, coarse', at(coarseGlycol, 4.4, 48.9, 93.3), [-2.89487, 757.033, 165.663]),
  ...parameters('V9 1-octanol, three points', at(octanol, 25, 50, 100), [-5.32004, 1458.587, 98.515]),
  ...parameters('V10 cyclohexanol, three points', at(cyclohexanol, 25, 50, 100), [-4.19935, 897.369, 189.393]),
]);

function predicted(
  what: string,
  table: Table,
  source: string,
  points: readonly (readonly [degrees: number, value: number, tolerance: Tolerance])[],
): readonly Published[] {
  return points.map(([degrees, number, tolerance]) => ({
    what: `${what} at ${degrees} °C`,
    value: number,
    unit: 'mPa·s',
    computed: () => known(viscosityAt(curveOf(table), celsius(degrees))) * 1000,
    tolerance,
    source,
  }));
}

const between = share(0.03, 'between the points the law and the table differ by up to 3 %');
const twoPoints = share(0.013, 'a law of two points between two points 20 K apart');

compare('points that the fit was not given', [
  ...predicted('V1 water from 20 and 40 °C', at(water, 20, 40), kayeLaby, [
    [25, 0.8902, twoPoints],
    [30, 0.7973, twoPoints],
    [10, 1.307, share(0.03, 'Andrade 10 K below its points: 2.8 % low for water')],
    [50, 0.5471, share(0.02, 'Andrade 10 K above its points: 1.7 % low for water')],
  ]),
  ...predicted('V2 water from 10, 30 and 60 °C', at(water, 10, 30, 60), kayeLaby, [
    [0, 1.792, share(0.01, 'Vogel 10 K below its points: 0.9 %')],
    [20, 1.002, share(0.002, 'between the points: 0.1 %')],
    [25, 0.8902, share(0.002, 'between the points: 0.1 %')],
    [50, 0.5471, share(0.004, 'between the points, and the table is 0.1 % above IAPWS there')],
    [80, 0.3551, share(0.01, 'Vogel 20 K above its points: 0.6 %')],
  ]),
  ...predicted('water by least squares of seven points', water, iapws, [
    [5, 1.5182, share(0.005, 'least squares over 80 K')],
    [15, 1.1375, share(0.005, 'least squares over 80 K')],
    [25, 0.89, share(0.005, 'least squares over 80 K')],
    [50, 0.5465, share(0.005, 'least squares over 80 K')],
    [70, 0.4035, share(0.005, 'least squares over 80 K')],
  ]),
  ...predicted('V3 glycerol from 20 and 40 °C', at(glycerol, 20, 40), segur, [
    [30, 612, twoPoints],
    [10, 3900, share(0.125, 'Andrade 10 K below its points: 12.3 % low for glycerol, whence the margin')],
    [50, 142, share(0.035, 'Andrade 10 K above its points: 3.3 %')],
  ]),
  ...predicted('V4 glycerol from 10, 30 and 60 °C', at(glycerol, 10, 30, 60), segur, [
    [0, 12_070, share(0.025, 'Vogel 10 K below its points: 2.3 %')],
    [20, 1410, between],
    [40, 284, between],
    [50, 142, share(0.04, 'the table itself is up to 3 % from its own formula')],
    [80, 31.9, share(0.08, 'Vogel 20 K above its points: 7.6 %, whence the margin')],
  ]),
  ...predicted('V5 glycerol from 0, 20 and 40 °C', at(glycerol, 0, 20, 40), segur, [
    [10, 3900, between],
    [60, 81.3, share(0.01, 'Vogel 20 K above its points: 0.9 %')],
  ]),
  ...predicted('glycerol by least squares of seven points', glycerol, 'Cheng 2008, formula from memory', [
    [20, 1413.8, share(0.05, 'formula and table differ by up to 3.2 %')],
    [40, 282.4, share(0.05, 'formula and table differ by up to 3.2 %')],
  ]),
  ...predicted('V7 ethylene glycol from 25, 50 and 100 °C', at(glycol, 25, 50, 100), crc, [
    [75, 3.34, share(0.001, 'between points of the same table, four digits')],
  ]),
  ...predicted('V8 ethylene glycol from 4.4, 48.9 and 93.3 °C', at(coarseGlycol, 4.4, 48.9, 93.3), course, [
    [26.7, 15.5, share(0.01, 'the table has two to three digits')],
    [71.1, 3.8, share(0.013, 'the table has two digits')],
  ]),
  ...predicted('V9 1-octanol from 25, 50 and 100 °C', at(octanol, 25, 50, 100), crc, [
    [75, 1.681, share(0.004, 'between the points: 0.35 %')],
  ]),
  ...predicted('V10 cyclohexanol from 25, 50 and 100 °C', at(cyclohexanol, 25, 50, 100), crc, [
    [75, 4.274, share(0.001, 'between the points: 0.06 %')],
  ]),
  ...predicted('V13 oil from 25, 40 and 100 °C (mm²/s)', oil, 'worked sheet by ASTM D341, another law', [
    [60, 15.186, share(0.02, 'Walther and Vogel are different laws through the same points')],
    [80, 8.533, share(0.02, 'Walther and Vogel are different laws through the same points')],
  ]),
]);

/** A curve from one point and an activation energy: Andrade's law with b = Ea/R. */
function activated(degrees: number, viscosity: number, joulePerMole: number): ViscosityCurve {
  const b = joulePerMole / 8.314462618;
  const a = Math.log(viscosity / 1000) - b / celsius(degrees);
  return { law: 'andrade', a, b, t0: 0, coldest: celsius(0), warmest: celsius(40), worst: 0 };
}

/** Degrees and mPa·s of the point, kJ/mol; degrees and mPa·s of another. */
const activations = [
  ['V11', 25, 100, 40, 10, 235.091],
  ['V11', 25, 100, 40, 35, 59.236],
  ['V12', 20, 60, 50, 5, 181.382],
] as const;

compare(
  'Andrade from one point and an activation energy',
  activations.map(
    ([id, degrees, viscosity, energy, other, value]): Published => ({
      what: `${id} ${viscosity} mPa·s at ${degrees} °C, ${energy} kJ/mol: at ${other} °C`,
      value,
      unit: 'mPa·s',
      computed: () => known(viscosityAt(activated(degrees, viscosity, energy * 1000), celsius(other))) * 1000,
      tolerance: printed(1e-3),
      source: 'worked example',
    }),
  ),
);
