import type { Dimension } from '@quarrel/model';

/** A line of an `assume` block: what it measures, or that a reading gives it. */
export interface AssumedShape {
  readonly value: readonly Dimension[];
  readonly isReading?: boolean;
  /** How it is written, for whoever wrote it otherwise. */
  readonly example: string;
}

/** What can be assumed, by what is estimated and by name. What the estimates make of it is told in docs/process.md. */
export const topics: Readonly<Record<string, Readonly<Record<string, AssumedShape>>>> = {
  glass: {
    temperature: { value: ['temperature'], isReading: true, example: 'temperature glass-temperature' },
  },
  filling: {
    gap: { value: ['length'], example: 'gap 3 µm' },
    length: { value: ['length'], example: 'length 20 mm' },
    pressure: { value: ['pressure'], example: 'pressure 100 kPa' },
  },
  curing: {
    distance: { value: ['length'], example: 'distance 30 mm' },
    output: { value: ['ratio'], example: 'output 80 %' },
    passed: { value: ['ratio'], example: 'passed 80 %' },
  },
  opening: {
    irradiance: { value: ['irradiance'], example: 'irradiance 1 mW/cm²' },
  },
  warming: {
    change: { value: ['temperature'], example: 'change 15 K' },
    allowed: { value: ['temperature'], example: 'allowed 40 K' },
  },
  air: {
    temperature: { value: ['temperature'], example: 'temperature 20 °C' },
    humidity: { value: ['ratio'], example: 'humidity 60 %' },
    altitude: { value: ['length'], example: 'altitude 500 m' },
  },
};
