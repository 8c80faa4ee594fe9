/** What a unit measures. Two quantities can be compared when they have the same dimension. */
export type Dimension =
  | 'temperature'
  | 'length'
  | 'time'
  | 'pressure'
  | 'viscosity'
  | 'irradiance'
  | 'dose'
  | 'surface-tension'
  | 'ratio'
  | 'volume'
  | 'drops'
  | 'pieces';

export interface Unit {
  /** As it is written in a sheet. */
  readonly name: string;
  readonly dimension: Dimension;
  /** SI value = (value + offset) × factor. */
  readonly factor: number;
  readonly offset?: number;
  /** The UCUM code, for machines. */
  readonly ucum: string;
  /** Other spellings that are read but never printed. */
  readonly spellings?: readonly string[];
}

/**
 * The units of the language. Factors are exact by definition unless noted: BIPM SI brochure, 9th ed. (2019), and
 * NIST SP 811 (2008), appendix B.8 (both from memory). Millimetres and inches of mercury are the conventional ones (0 °C,
 * 13 595.1 kg/m³, 9.80665 m/s²); the pound-force per square inch is 4.4482216152605 N / (0.0254 m)².
 */
export const units: readonly Unit[] = [
  { name: '°C', dimension: 'temperature', factor: 1, offset: 273.15, ucum: 'Cel' },
  { name: '°F', dimension: 'temperature', factor: 5 / 9, offset: 459.67, ucum: '[degF]' },
  { name: 'K', dimension: 'temperature', factor: 1, ucum: 'K' },
  { name: 'nm', dimension: 'length', factor: 1e-9, ucum: 'nm' },
  { name: 'µm', dimension: 'length', factor: 1e-6, ucum: 'um', spellings: ['μm', 'um'] },
  { name: 'mm', dimension: 'length', factor: 1e-3, ucum: 'mm' },
  { name: 'cm', dimension: 'length', factor: 1e-2, ucum: 'cm' },
  { name: 'm', dimension: 'length', factor: 1, ucum: 'm' },
  { name: 'inch', dimension: 'length', factor: 0.0254, ucum: '[in_i]', spellings: ['inches'] },
  { name: 's', dimension: 'time', factor: 1, ucum: 's' },
  { name: 'min', dimension: 'time', factor: 60, ucum: 'min' },
  { name: 'h', dimension: 'time', factor: 3600, ucum: 'h' },
  { name: 'Pa', dimension: 'pressure', factor: 1, ucum: 'Pa' },
  { name: 'kPa', dimension: 'pressure', factor: 1e3, ucum: 'kPa' },
  { name: 'mbar', dimension: 'pressure', factor: 100, ucum: 'mbar' },
  { name: 'bar', dimension: 'pressure', factor: 1e5, ucum: 'bar' },
  { name: 'psi', dimension: 'pressure', factor: 6894.757293168, ucum: '[psi]' },
  { name: 'mmHg', dimension: 'pressure', factor: 133.322387415, ucum: 'mm[Hg]' },
  { name: 'inHg', dimension: 'pressure', factor: 3386.38864034, ucum: "[in_i'Hg]" },
  { name: 'mPa·s', dimension: 'viscosity', factor: 1e-3, ucum: 'mPa.s', spellings: ['mPa.s', 'mPa*s', 'mPa⋅s'] },
  { name: 'Pa·s', dimension: 'viscosity', factor: 1, ucum: 'Pa.s', spellings: ['Pa.s', 'Pa*s', 'Pa⋅s'] },
  { name: 'cP', dimension: 'viscosity', factor: 1e-3, ucum: 'cP' },
  { name: 'mW/cm²', dimension: 'irradiance', factor: 10, ucum: 'mW/cm2', spellings: ['mW/cm2'] },
  { name: 'W/m²', dimension: 'irradiance', factor: 1, ucum: 'W/m2', spellings: ['W/m2'] },
  { name: 'mJ/cm²', dimension: 'dose', factor: 10, ucum: 'mJ/cm2', spellings: ['mJ/cm2'] },
  { name: 'J/cm²', dimension: 'dose', factor: 1e4, ucum: 'J/cm2', spellings: ['J/cm2'] },
  { name: 'J/m²', dimension: 'dose', factor: 1, ucum: 'J/m2', spellings: ['J/m2'] },
  { name: 'mN/m', dimension: 'surface-tension', factor: 1e-3, ucum: 'mN/m' },
  { name: '%', dimension: 'ratio', factor: 0.01, ucum: '%' },
  { name: 'ml', dimension: 'volume', factor: 1e-6, ucum: 'mL', spellings: ['mL'] },
  { name: 'drops', dimension: 'drops', factor: 1, ucum: '[drp]', spellings: ['drop'] },
  { name: 'pieces', dimension: 'pieces', factor: 1, ucum: '{pieces}', spellings: ['piece'] },
];

const byName = new Map(units.flatMap((unit) => [unit.name, ...(unit.spellings ?? [])].map((name) => [name, unit])));

/** The unit with this name or spelling, exactly as written; `undefined` when there is none. */
export function unitNamed(name: string): Unit | undefined {
  return byName.get(name);
}

/** Every unit of one dimension, smallest first. */
export function unitsOf(dimension: Dimension): readonly Unit[] {
  return units.filter((unit) => unit.dimension === dimension);
}
