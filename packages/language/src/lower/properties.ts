import type { Dimension, ThingKind } from '@quarrel/model';

/** A line of a datasheet: what its value measures, and what has to stand behind `at` or `under`. */
export interface PropertyShape {
  readonly value: readonly Dimension[];
  readonly joint?: { readonly word: 'at' | 'under'; readonly dimension: Dimension };
  /** How it is written, for whoever wrote it otherwise. */
  readonly example: string;
}

/** The properties that things can have, by kind and by name. */
export const propertyShapes: Readonly<Record<ThingKind, Readonly<Record<string, PropertyShape>>>> = {
  resin: {
    viscosity: {
      value: ['viscosity'],
      joint: { word: 'at', dimension: 'temperature' },
      example: 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C',
    },
    'surface-tension': { value: ['surface-tension'], example: 'surface-tension 33 mN/m' },
    'cure-dose': {
      value: ['dose'],
      joint: { word: 'at', dimension: 'length' },
      example: 'cure-dose 1.2 J/cm² at 365 nm',
    },
    works: { value: ['temperature'], example: 'works from 5 °C to 32 °C' },
    'open-time': {
      value: ['time'],
      joint: { word: 'under', dimension: 'irradiance' },
      example: 'open-time 4 min under 1 mW/cm²',
    },
  },
  lamp: {
    irradiance: {
      value: ['irradiance'],
      joint: { word: 'at', dimension: 'length' },
      example: 'irradiance 25 mW/cm² at 30 mm',
    },
    wavelength: { value: ['length'], example: 'wavelength 365 nm' },
    spot: { value: ['length'], example: 'spot 60 mm' },
  },
  injector: {
    vacuum: { value: ['ratio', 'pressure'], example: 'vacuum 85 %' },
    pressure: { value: ['pressure'], example: 'pressure 200 kPa' },
  },
  tool: {},
  consumable: {},
};
