import ucum from '@lhncbc/ucum-lhc';
import { type Dimension, fromSi, type Quantity, toSi, type Unit, unitNamed, units } from '@quarrel/model';
import { differenceOf, siOf } from '@quarrel/process';
import { describe, expect, test } from 'vitest';
import { compare, exact, known, type Published, printed, share, type Tolerance } from './published.js';

const bipm = 'BIPM SI brochure 9th ed., NIST SP 811; from memory';

function unit(name: string): Unit {
  const found = unitNamed(name);
  if (found === undefined) throw new Error(`no unit ${name}`);
  return found;
}

/** A conversion by way of SI: `[212, '°F', 100, '°C']`. */
type Conversion = readonly [value: number, from: string, published: number, to: string, tolerance?: Tolerance];

const conversions: readonly Conversion[] = [
  [0, '°C', 273.15, 'K'],
  [-40, '°F', -40, '°C'],
  [32, '°F', 0, '°C'],
  [70, '°F', 21.1111, '°C', printed(1e-4)],
  [212, '°F', 100, '°C'],
  [98.6, '°F', 37, '°C'],
  [1, 'inch', 25.4, 'mm'],
  [1, 'bar', 100, 'kPa'],
  [1013.25, 'mbar', 101.325, 'kPa'],
  [1, 'psi', 6894.757293168, 'Pa'],
  [1, 'mmHg', 133.322387415, 'Pa'],
  [1, 'inHg', 3386.38864, 'Pa', printed(1e-5)],
  [29.92126, 'inHg', 101.325, 'kPa', share(2e-7, 'seven digits printed')],
  [760, 'mmHg', 101.325, 'kPa', share(2e-7, 'the conventional millimetre of mercury is 1.4e-7 more than a torr')],
  [14.69595, 'psi', 101.325, 'kPa', share(4e-7, 'seven digits printed')],
  [20, 'inHg', 67.728, 'kPa', printed(1e-3)],
  [25, 'inHg', 84.66, 'kPa', printed(1e-3)],
  [28, 'inHg', 94.819, 'kPa', printed(1e-3)],
  [1, 'cP', 1, 'mPa·s'],
  [1, 'mW/cm²', 10, 'W/m²'],
  [1, 'mJ/cm²', 10, 'J/m²'],
  [1, 'J/cm²', 1000, 'mJ/cm²'],
  [1, 'J/cm²', 10_000, 'J/m²'],
  [1, 'h', 3600, 's'],
  [1, 'h', 60, 'min'],
];

compare(
  'units of the language',
  conversions.map(
    ([value, from, published, to, tolerance = exact]): Published => ({
      what: `${value} ${from} in ${to}`,
      value: published,
      unit: to,
      computed: () => fromSi(toSi(value, unit(from)), unit(to)),
      tolerance: published === 0 ? { ...tolerance, by: 'amount' } : tolerance,
      source: bipm,
    }),
  ),
);

/** UCUM's codes of the SI units; what is counted has none. */
const siCodes: Readonly<Record<Dimension, string | undefined>> = {
  temperature: 'K',
  length: 'm',
  time: 's',
  pressure: 'Pa',
  viscosity: 'Pa.s',
  irradiance: 'W/m2',
  dose: 'J/m2',
  'surface-tension': 'N/m',
  ratio: '1',
  volume: 'm3',
  drops: undefined,
  pieces: undefined,
};

const codes = ucum.UcumLhcUtils.getInstance();

function ucumToSi(value: number, from: Unit): number {
  const converted = codes.convertUnitTo(from.ucum, value, siCodes[from.dimension] ?? from.ucum);
  if (converted.toVal === null) throw new Error(`${from.ucum}: ${converted.status}`);
  return converted.toVal;
}

const mercury = share(3e-6, 'UCUM takes the metre of mercury as 133.3220 kPa, NIST as 133.322387415 kPa');

compare(
  "every unit against another library's reading of its UCUM code",
  units.flatMap((each) =>
    [1, 37].map(
      (value): Published => ({
        what: `${value} ${each.name} as ${each.ucum}`,
        value: ucumToSi(value, each),
        unit: siCodes[each.dimension] ?? each.name,
        computed: () => toSi(value, each),
        tolerance: each.ucum.includes('Hg') ? mercury : exact,
        source: '@lhncbc/ucum-lhc 7.1.10',
      }),
    ),
  ),
);

describe('traps', () => {
  test.each(units.map((each) => [each.name, each.ucum]))('%s has a code that UCUM knows: %s', (_, code) => {
    expect(codes.validateUnitString(code).status).toBe('valid');
  });

  test('C is the coulomb in UCUM, so no temperature is written as C', () => {
    expect(codes.validateUnitString('C').unit?.name).toBe('coulomb');
    expect(units.map((each) => each.ucum)).not.toContain('C');
  });

  test.each([
    ['15 K', 15],
    ['15 °C', 15],
    ['27 °F', 15],
    ['0 °C', 0],
    ['-9 °F', -5],
  ])('a difference of %s is %d K: no zero point is added', (text, kelvin) => {
    expect(known(differenceOf(quantity(text)))).toBeCloseTo(kelvin, 9);
  });

  test('a temperature of 15 °C is 288.15 K', () => {
    expect(known(siOf(quantity('15 °C'), 'temperature'))).toBe(288.15);
  });

  test('a quantity does not pass for another dimension', () => {
    expect(siOf(quantity('15 K'), 'time')).toEqual({ kind: 'none', because: 'wrong-dimension' });
    expect(differenceOf(quantity('15 s'))).toEqual({ kind: 'none', because: 'wrong-dimension' });
  });
});

function quantity(text: string): Quantity {
  const [number = '', name = ''] = text.split(' ');
  const { dimension } = unit(name);
  const nowhere = { line: 0, column: 0 };
  const range = { uri: 'file:///a.quarrel', start: nowhere, end: nowhere };
  return { dimension, si: toSi(Number(number), unit(name)), text, unit: name, range };
}
