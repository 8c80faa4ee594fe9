import type { Region, Situations } from '@quarrel/analysis';
import type { Reading } from '@quarrel/model';
import type { Stretch } from './holds.js';

/** The values that a reading can have in a region, from low to high; stretches that touch are one. */
export function stretchesIn(region: Region, reading: Reading, situations: Situations): readonly Stretch[] {
  const { store } = situations;
  const level = situations.levelOf(reading.name);
  const axis = level === undefined ? undefined : situations.axes[level];
  if (level === undefined || axis?.kind !== 'reading') {
    return region === store.nowhere ? [] : [{ low: reading.low.si, high: reading.high.si }];
  }
  return joined(
    axis.cells.filter((_, cell) => store.and(region, store.cells(level, new Set([cell]))) !== store.nowhere),
  );
}

/** Stretches in order, those that touch as one. */
export function joined(stretches: readonly Stretch[]): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const { low, high } of stretches) {
    const last = found.at(-1);
    if (last?.high === low) found[found.length - 1] = { low: last.low, high };
    else found.push({ low, high });
  }
  return found;
}

/** From the lowest to the highest of them. */
export function around(stretches: readonly Stretch[]): Stretch {
  return {
    low: Math.min(...stretches.map(({ low }) => low)),
    high: Math.max(...stretches.map(({ high }) => high)),
  };
}

/** The same, but not so narrow that nothing could be drawn on it. */
export function widened({ low, high }: Stretch): Stretch {
  return high - low >= 1 ? { low, high } : { low: low - 0.5, high: high + 0.5 };
}
