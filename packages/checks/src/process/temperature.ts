import type { Region } from '@quarrel/analysis';
import { fromSi, type Quantity, type Reading, type Test, toSi, unitNamed } from '@quarrel/model';
import type { Work } from '../rule.js';
import { isSomewhere } from '../work.js';

/**
 * A temperature in the unit of a reading, to a hundredth of it, rounded down: below it is what was computed, and never more than
 * that. Nothing where the reading cannot show it.
 */
export function shownTemperature(kelvin: number, reading: Reading): Quantity | undefined {
  const unit = unitNamed(reading.low.unit);
  if (unit === undefined || kelvin <= reading.low.si) return undefined;
  const inUnit = Math.floor(fromSi(Math.min(kelvin, reading.high.si), unit) * 100 + 1e-6) / 100;
  return quantity(inUnit, reading);
}

function quantity(inUnit: number, { low }: Reading): Quantity {
  const unit = unitNamed(low.unit);
  const si = unit === undefined ? low.si : toSi(inUnit, unit);
  return { dimension: 'temperature', si, text: `${inUnit} ${low.unit}`, unit: low.unit, range: low.range };
}

/** `glass-temperature below 11.27 °C`. */
export function below(reading: Reading, temperature: Quantity): Test {
  return { kind: 'compare', subject: reading.name, comparison: 'below', quantity: temperature, range: reading.range };
}

/** The lowest temperature that a reading has in a region, as it is shown; the reading's own lowest in an empty one. */
export function coldestIn(region: Region, reading: Reading, work: Work): Quantity {
  const { situations } = work.run;
  const level = situations.levelOf(reading.name);
  const axis = level === undefined ? undefined : situations.axes[level];
  if (level === undefined || axis?.kind !== 'reading') return reading.low;
  const cell = axis.cells.findIndex((_, index) =>
    isSomewhere(work, situations.store.and(region, situations.store.cells(level, new Set([index])))),
  );
  const low = axis.cells[cell]?.low;
  const unit = unitNamed(reading.low.unit);
  return low === undefined || unit === undefined ? reading.low : quantity(fromSi(low, unit), reading);
}
