import { celsius, type PascalSecond, si, type ViscosityCurve, viscosityCurve } from '@quarrel/process';
import { known } from './published.js';

/** Degrees Celsius and mPa·s. */
export type Table = readonly (readonly [degrees: number, viscosity: number])[];

/** A viscosity in mPa·s. */
export const milli = (number: number): PascalSecond => si(number / 1000, 'viscosity');

/** The curve through all rows of a table. */
export function curveOf(table: Table): ViscosityCurve {
  return known(
    viscosityCurve(table.map(([degrees, number]) => ({ temperature: celsius(degrees), viscosity: milli(number) }))),
  );
}

/** IAPWS R12-08 at 0.1 MPa, coefficients from memory. */
export const water: Table = [
  [0, 1.7918],
  [10, 1.3059],
  [20, 1.0016],
  [30, 0.7972],
  [40, 0.6527],
  [60, 0.466],
  [80, 0.354],
];

/** Segur and Oberstar 1951, Ind. Eng. Chem. 43:2117, from memory; Cheng's formula agrees within 3.2 %. */
export const glycerol: Table = [
  [0, 12_070],
  [10, 3900],
  [20, 1410],
  [30, 612],
  [40, 284],
  [50, 142],
  [60, 81.3],
];

/** CRC Handbook, viscosity of liquids, from memory. */
export const glycol: Table = [
  [25, 16.06],
  [50, 6.554],
  [75, 3.34],
  [100, 1.975],
];

/** Ethylene glycol again: engineering table in a university course, two digits, seen. */
export const coarseGlycol: Table = [
  [4.4, 48],
  [26.7, 15.5],
  [48.9, 7],
  [71.1, 3.8],
  [93.3, 2.4],
];

/** CRC Handbook, from memory. */
export const octanol: Table = [
  [25, 7.288],
  [50, 3.232],
  [75, 1.681],
  [100, 0.991],
];

/** CRC Handbook, from memory. */
export const cyclohexanol: Table = [
  [25, 57.5],
  [50, 12.3],
  [75, 4.274],
  [100, 1.982],
];

/** Mineral oil VG 32, a worked sheet by ASTM D341, in mm²/s: the law does not ask for the unit. */
export const oil: Table = [
  [25, 65.42],
  [40, 32],
  [100, 5.4],
];

/** The rows of some temperatures. */
export function at(table: Table, ...degrees: readonly number[]): Table {
  return table.filter(([each]) => degrees.includes(each));
}
