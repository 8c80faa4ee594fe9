import type { Dimension } from '@quarrel/model';

/** A line of an `assume` block: what it measures, and whether a reading may give it. */
export interface AssumedShape {
  readonly value: readonly Dimension[];
  readonly fromReading: boolean;
  /** How it is written, for whoever wrote it otherwise. */
  readonly example: string;
}

const glassTemperature: AssumedShape = {
  value: ['temperature'],
  fromReading: true,
  example: 'temperature glass-temperature',
};

/** What can be assumed, by what is estimated and by name. What the estimates make of it is told in docs/process.md. */
export const topics: Readonly<Record<string, Readonly<Record<string, AssumedShape>>>> = {
  filling: {
    temperature: glassTemperature,
    gap: { value: ['length'], fromReading: false, example: 'gap 3 µm' },
    length: { value: ['length'], fromReading: false, example: 'length 20 mm' },
    pressure: { value: ['pressure'], fromReading: false, example: 'pressure 100 kPa' },
  },
  curing: {
    distance: { value: ['length'], fromReading: false, example: 'distance 30 mm' },
    output: { value: ['ratio'], fromReading: false, example: 'output 80 %' },
    passed: { value: ['ratio'], fromReading: false, example: 'passed 80 %' },
  },
  opening: {
    irradiance: { value: ['irradiance'], fromReading: false, example: 'irradiance 1 mW/cm²' },
  },
  warming: {
    change: { value: ['temperature'], fromReading: false, example: 'change 15 K' },
    allowed: { value: ['temperature'], fromReading: false, example: 'allowed 40 K' },
  },
  air: {
    glass: glassTemperature,
    temperature: { value: ['temperature'], fromReading: true, example: 'temperature air-temperature' },
    humidity: { value: ['ratio'], fromReading: true, example: 'humidity 60 %' },
    altitude: { value: ['length'], fromReading: false, example: 'altitude 500 m' },
  },
};
