import { type Fill, type Told, timeToFill } from '@quarrel/checks';
import { type Doubt, doubts, type Need, type NeedPart, type NeedPoint, type Stretch } from './holds.js';
import { joined } from './stretches.js';

/** In K: how far apart the points of a line are at most. */
const apart = 0.5;

/** How long a fill needs over some temperatures, cut where another thing has to be told beside it. */
export function lineOf(
  fill: Fill,
  told: Told,
  used: readonly Stretch[],
  marks: readonly number[],
): Pick<Need, 'parts' | 'untold' | 'atMarks'> {
  const parts: NeedPart[] = [];
  const untold: Stretch[] = [];
  for (const stretch of used.flatMap((one) => cutAt([told.least, told.coldest, told.warmest, told.most], one))) {
    const middle = timeToFill(fill, (stretch.low + stretch.high) / 2);
    if (middle?.kind === 'value') {
      parts.push({ points: pointsOf(fill, stretch), doubts: middle.caveats.filter(isDoubt) });
    } else untold.push(stretch);
  }
  const isUsed = (mark: number): boolean => used.some(({ low, high }) => low <= mark && mark <= high);
  return { parts, untold: joined(untold), atMarks: marks.filter(isUsed).flatMap((mark) => pointAt(fill, mark)) };
}

function cutAt(cuts: readonly number[], { low, high }: Stretch): readonly Stretch[] {
  const inside = [...new Set(cuts)].filter((cut) => low < cut && cut < high).sort((a, b) => a - b);
  const ends = [...inside, high];
  return ends.map((end, index) => ({ low: ends[index - 1] ?? low, high: end }));
}

function pointsOf(fill: Fill, { low, high }: Stretch): readonly NeedPoint[] {
  const count = Math.ceil((high - low) / apart);
  return Array.from({ length: count + 1 }, (_, index) => {
    // The ends as they are, without the digits that arithmetic adds.
    return pointAt(fill, index === count ? high : low + ((high - low) * index) / count);
  }).flat();
}

function pointAt(fill: Fill, temperature: number): readonly NeedPoint[] {
  const time = timeToFill(fill, temperature);
  return time?.kind === 'value' ? [{ temperature, seconds: time.value }] : [];
}

function isDoubt(caveat: string): caveat is Doubt {
  return doubts.some((doubt) => doubt === caveat);
}
