import { type Dimension, type Quantity, unitNamed } from '@quarrel/model';
import { type Answer, none, value } from './answer.js';

/** What a number measures here: a dimension of the language, or one that only formulas know. */
export type Measure = Dimension | 'temperature-difference' | 'angle' | 'pace';

declare const measure: unique symbol;

/** A number in the SI unit of what it measures. One measure cannot be passed for another: the compiler refuses it. */
export type Si<M extends Measure> = number & { readonly [measure]: M };

/** A temperature in kelvin, never in °C. */
export type Kelvin = Si<'temperature'>;
/** A difference of two temperatures in kelvin: no zero point is added or taken away. */
export type KelvinDifference = Si<'temperature-difference'>;
export type Metre = Si<'length'>;
export type Second = Si<'time'>;
/** A pressure in pascal; the function says whether it is absolute or gauge. Also a stress. */
export type Pascal = Si<'pressure'>;
export type PascalSecond = Si<'viscosity'>;
/** Irradiance in W/m². 1 mW/cm² is 10 W/m². */
export type WattPerSquareMetre = Si<'irradiance'>;
/** Dose (radiant exposure) in J/m². 1 J/cm² is 10 000 J/m². */
export type JoulePerSquareMetre = Si<'dose'>;
/** Surface tension in N/m. */
export type NewtonPerMetre = Si<'surface-tension'>;
/** A share of 1. */
export type Ratio = Si<'ratio'>;
export type CubicMetre = Si<'volume'>;
/** An angle in radians. */
export type Radian = Si<'angle'>;
/** How fast a temperature changes, in K/s. */
export type KelvinPerSecond = Si<'pace'>;

/** Says what a number in SI units measures. The only place where a bare number gets a measure. */
export function si<M extends Measure>(number: number, measure: M): Si<M>;
export function si(number: number): number {
  return number;
}

/** The temperature of so many °C. */
export function celsius(degrees: number): Kelvin {
  return si(degrees + 273.15, 'temperature');
}

/** The angle of so many degrees. */
export function degrees(number: number): Radian {
  return si((number * Math.PI) / 180, 'angle');
}

/** The SI value of a sheet's quantity; none where it measures something else or is no finite number. */
export function siOf<D extends Dimension>(quantity: Quantity, dimension: D): Answer<Si<D>> {
  if (quantity.dimension !== dimension || !Number.isFinite(quantity.si)) return none('wrong-dimension');
  return value(si(quantity.si, dimension));
}

/**
 * A temperature in a sheet, meant as a difference: `15 K` and `15 °C` are 15 K, `27 °F` is 15 K. The zero point, which
 * makes 15 °C a temperature of 288.15 K, is taken off again.
 */
export function differenceOf(quantity: Quantity): Answer<KelvinDifference> {
  const unit = unitNamed(quantity.unit);
  if (quantity.dimension !== 'temperature' || unit?.dimension !== 'temperature') return none('wrong-dimension');
  return value(si(quantity.si - (unit.offset ?? 0) * unit.factor, 'temperature-difference'));
}
