import type { SourceRange } from './source.js';
import { type Dimension, type Unit, unitNamed } from './units.js';

/** A value with its unit: SI inside, and as it was written for whoever reads it. */
export interface Quantity {
  readonly dimension: Dimension;
  /** The value in the SI unit of its dimension (K, m, s, Pa, Pa·s, W/m², J/m², N/m, m³; ratios as fractions of 1). */
  readonly si: number;
  /** As written, with single spaces: `1 min 30 s`. */
  readonly text: string;
  /** The unit written last, by its name in the language: `°C`. */
  readonly unit: string;
  readonly range: SourceRange;
}

/** From `least` to `most`, both ends included; a missing end is open. */
export interface Span {
  readonly least?: Quantity;
  readonly most?: Quantity;
  readonly range: SourceRange;
}

/**
 * Rounds an SI value to twelve significant digits, so that one value written in two units is one value:
 * `50 °F` and `10 °C`, `1 inch` and `25.4 mm`.
 */
export function settle(si: number): number {
  return Number(si.toPrecision(12));
}

/** The SI value of `value` in `unit`. */
export function toSi(value: number, unit: Unit): number {
  return settle((value + (unit.offset ?? 0)) * unit.factor);
}

/** The value in `unit` of an SI value, free of the digits that arithmetic adds. */
export function fromSi(si: number, unit: Unit): number {
  const value = Number((si / unit.factor - (unit.offset ?? 0)).toPrecision(10));
  return Math.abs(value) < 1e-9 ? 0 : value;
}

/** An SI value in words: `formatSi(283.15, '°C')` is `10 °C`. The unit has to be one of the language's. */
export function formatSi(si: number, unitName: string): string {
  const unit = unitNamed(unitName);
  if (unit === undefined) throw new RangeError(`no unit is called ${unitName}`);
  return `${fromSi(si, unit)} ${unit.name}`;
}
