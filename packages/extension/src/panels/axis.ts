import type { Part, Times } from '@quarrel/pictures';

/** The clock along the top: from 0 to `end` seconds, with a tick every `every` seconds. */
export interface TimeAxis {
  readonly end: number;
  readonly every: number;
  readonly ticks: readonly number[];
}

/** Distances that a clock is divided by, in seconds. */
const distances = [5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 28_800, 86_400];

/** An axis on which all finite times of some parts have room, with at most `most` ticks behind the first. */
export function axisFor(parts: readonly Part[], total: Times | undefined, most: number): TimeAxis {
  const latest = Math.max(total?.most ?? 0, latestIn(parts), 1);
  const every = distances.find((distance) => latest / distance <= most) ?? Math.ceil(latest / most);
  const count = Math.ceil(latest / every);
  return { end: count * every, every, ticks: Array.from({ length: count + 1 }, (_, index) => index * every) };
}

function latestIn(parts: readonly Part[]): number {
  return parts.reduce((latest, part) => Math.max(latest, latestOf(part)), 0);
}

function latestOf(part: Part): number {
  const late = ({ least, most }: Times): number => most ?? least;
  switch (part.kind) {
    case 'step': {
      const hold = part.hold === undefined ? 0 : late(part.hold);
      const takes = part.takes === undefined ? 0 : late(part.takes);
      const ends = part.end === undefined ? 0 : late(part.end);
      return Math.max(part.start.least + takes + hold, late(part.start), ends, latestIn(part.meanwhile));
    }
    case 'branch':
      return Math.max(0, ...part.ways.map((way) => latestIn(way.parts)));
    case 'stop':
      return late(part.at);
    case 'stage':
    case 'repeat':
      return latestIn(part.parts);
  }
}
