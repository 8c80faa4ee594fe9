import {
  differenceForStress,
  diffusivity,
  type Held,
  type KelvinDifference,
  lagOf,
  type Pane,
  paceFor,
  si,
  sodaLime,
  thermalStress,
  timeToChange,
  toleratedByWholeGlass,
  usualPane,
} from '@quarrel/process';
import { describe, expect, test } from 'vitest';
import { compare, exact, known, type Published, printed } from './published.js';

const elastic = 'worked example by Timoshenko and Goodier, properties of EN 572-1';

const kelvin = (number: number): KelvinDifference => si(number, 'temperature-difference');

const stresses: readonly (readonly [id: string, difference: number, held: Held, value: number])[] = [
  ['T1 one kelvin', 1, 'all-round', 0.7875],
  ['T3 40 K', 40, 'all-round', 31.5],
  ['T3 40 K', 40, 'edge', 25.2],
  ['T4 30 K', 30, 'all-round', 23.625],
  ['T5 30 K', 30, 'through-thickness', 11.8125],
];

/** MPa and K. */
const allowed: readonly (readonly [megapascals: number, value: number])[] = [
  [7, 8.889],
  [10, 12.698],
  [17, 21.587],
  [20, 25.397],
  [24, 30.476],
  [45, 57.143],
];

compare('stress from a difference of temperature', [
  ...stresses.map(
    ([what, difference, held, value]): Published => ({
      what: `${what}, held ${held}`,
      value,
      unit: 'MPa',
      computed: () => thermalStress(kelvin(difference), held) / 1e6,
      tolerance: exact,
      source: elastic,
    }),
  ),
  ...allowed.map(
    ([megapascals, value]): Published => ({
      what: `T6, T7 the difference that gives ${megapascals} MPa`,
      value,
      unit: 'K',
      computed: () => differenceForStress(si(megapascals * 1e6, 'pressure'), 'all-round'),
      tolerance: printed(1e-3),
      source: elastic,
    }),
  ),
  {
    what: 'T2 one kelvin with a Poisson number of 0.23, as elsewhere',
    value: 0.81818,
    unit: 'MPa',
    computed: () => thermalStress(kelvin(1), 'all-round') / 1e6,
    tolerance: { by: 'share', size: 0.0376, why: 'the sources differ in the Poisson number: 0.80/0.77' },
    source: 'material data of ASTM glass',
  },
]);

const ply: Pane = { outer: si(2.1e-3, 'length'), film: si(0, 'length'), inner: si(0, 'length') };

compare('heat in glass', [
  {
    what: 'T8 diffusivity',
    value: 5.56e-7,
    unit: 'm²/s',
    computed: () => diffusivity,
    tolerance: printed(1e-9),
    source: 'properties of EN 572-1',
  },
  {
    what: 'T8 time constant d²/(π²a) of a ply of 2.1 mm, from our lag d²/(2a)',
    value: 0.8,
    unit: 's',
    computed: () => (known(lagOf(ply)) * 2) / Math.PI ** 2,
    tolerance: printed(0.01),
    source: 'worked example, properties of EN 572-1',
  },
  {
    what: 'lag of a usual laminated pane: 15.9 s through glass, 14.4 s through film',
    value: 30.2,
    unit: 's',
    computed: () => lagOf(usualPane),
    tolerance: printed(0.1),
    source: 'worked out by hand: (4.2 mm)²/(2·5.56·10⁻⁷ m²/s) + 3780 J/(m²·K)·0.76 mm/0.2 W/(m·K)',
  },
  {
    what: 'pace at which its faces differ by 40 K',
    value: 1.32,
    unit: 'K/s',
    computed: () => paceFor(toleratedByWholeGlass, known(lagOf(usualPane))),
    tolerance: printed(0.01),
    source: 'worked out by hand',
  },
]);

/**
 * The difference between the faces, per K/s of pace, by finite differences: a ply, film without heat, a ply, warmed at the
 * outer face at a steady pace for so long that the start has died away.
 */
function simulatedLag({ outer, film, inner }: Pane, cells: number): number {
  const heat = sodaLime.density * sodaLime.heat;
  const width = (outer + inner) / cells;
  const border = Math.round((outer / (outer + inner)) * cells);
  const resistance = (index: number) => width / sodaLime.conductivity + (index === border && film > 0 ? film / 0.2 : 0);
  const step = (0.4 * width ** 2) / diffusivity;
  let temperatures = Array.from({ length: cells }, () => 0);
  let face = 0;
  for (let time = 0; time < 400; time += step) {
    face = time;
    const flows = temperatures.map((temperature, index) => {
      const before = index === 0 ? face : (temperatures[index - 1] ?? 0);
      return (before - temperature) / (index === 0 ? resistance(index) / 2 : resistance(index));
    });
    temperatures = temperatures.map(
      (temperature, index) => temperature + (((flows[index] ?? 0) - (flows[index + 1] ?? 0)) * step) / (heat * width),
    );
  }
  return face - (temperatures.at(-1) ?? 0);
}

compare(
  'lag against a simulation of heat conduction',
  (
    [
      ['a ply of 4 mm', { ...ply, outer: si(4e-3, 'length') }],
      ['a usual pane', usualPane],
    ] as const
  ).map(
    ([what, pane]): Published => ({
      what,
      value: simulatedLag(pane, 40),
      unit: 's',
      computed: () => lagOf(pane),
      tolerance: { by: 'share', size: 0.01, why: 'forty cells' },
      source: 'finite differences in this test',
    }),
  ),
);

describe('traps', () => {
  test('a change of one part by more than is allowed is told apart, however slow', () => {
    const lag = known(lagOf(usualPane));
    expect(timeToChange(kelvin(30), kelvin(40), lag)).toMatchObject({ kind: 'value', caveats: [] });
    expect(timeToChange(kelvin(41), kelvin(40), lag)).toMatchObject({ kind: 'value', caveats: ['only-as-a-whole'] });
    expect(timeToChange(kelvin(-30), kelvin(40), lag)).toEqual(timeToChange(kelvin(30), kelvin(40), lag));
    expect(timeToChange(kelvin(30), kelvin(0), lag)).toMatchObject({ kind: 'outside', of: 'allowed difference' });
  });
});
