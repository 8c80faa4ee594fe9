import type { Region } from '@quarrel/analysis';
import { fromSi, type Procedure, type Quantity, type Reading, type Test, toSi, unitNamed } from '@quarrel/model';
import type { Work } from '../rule.js';
import { isSomewhere } from '../work.js';

/**
 * Everything colder than a turning point, as a test on a reading: `glass-temperature below 11.27 °C`, or `always` where it lies
 * above all that is covered. Nothing where all that is covered is warmer. It is rounded down to a hundredth in the unit of
 * the reading, so that it never claims more than was computed.
 */
export function colderThan(kelvin: number, reading: Reading, procedure: Procedure): Test | undefined {
  const { low, high } = coveredEnds(reading, procedure);
  if (kelvin > high) return { kind: 'always', range: reading.range };
  const unit = unitNamed(reading.low.unit);
  if (unit === undefined || !(kelvin > low)) return undefined;
  const shown = quantity(Math.floor(fromSi(kelvin, unit) * 100 + 1e-6) / 100, reading);
  if (shown.si <= low) return undefined;
  return { kind: 'compare', subject: reading.name, comparison: 'below', quantity: shown, range: reading.range };
}

/** From where to where a reading can lie in what is covered, as far as that can be read off it. */
export function coveredEnds(reading: Reading, { covers }: Procedure): Ends {
  return covers.reduce(narrowed(reading.name), { low: reading.low.si, high: reading.high.si });
}

/** In SI units. */
interface Ends {
  readonly low: number;
  readonly high: number;
}

/** Leaves of a reading's range what a test lets pass. */
function narrowed(reading: string): (ends: Ends, test: Test) => Ends {
  const narrow = ({ low, high }: Ends, test: Test): Ends => {
    switch (test.kind) {
      case 'and':
        return test.tests.reduce(narrow, { low, high });
      case 'between':
        if (test.subject !== reading) break;
        return { low: Math.max(low, test.low.si), high: Math.min(high, test.high.si) };
      case 'compare': {
        if (test.subject !== reading) break;
        const { si } = test.quantity;
        const isFloor = test.comparison === 'above' || test.comparison === 'at-least' || test.comparison === 'equal';
        const isCeiling = test.comparison === 'below' || test.comparison === 'at-most' || test.comparison === 'equal';
        return { low: isFloor ? Math.max(low, si) : low, high: isCeiling ? Math.min(high, si) : high };
      }
    }
    return { low, high };
  };
  return narrow;
}

function quantity(inUnit: number, { low }: Reading): Quantity {
  const unit = unitNamed(low.unit);
  const si = unit === undefined ? low.si : toSi(inUnit, unit);
  return { dimension: 'temperature', si, text: `${inUnit} ${low.unit}`, unit: low.unit, range: low.range };
}

/** `Below 11.27 °C`, or what `colderThan` says otherwise, to begin a sentence with. */
export function colderInWords(test: Test): string {
  return test.kind === 'compare' ? `Below ${test.quantity.text}` : 'At every glass temperature that is covered';
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
