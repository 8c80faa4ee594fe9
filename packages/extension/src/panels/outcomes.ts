import type { Coverage, Outcome } from '@quarrel/pictures';
import { durations } from './times.js';
import type { Words } from './words.js';

/** What comes out in a region, in words. */
export function outcomeWords(outcome: Outcome, words: Words): string {
  switch (outcome.kind) {
    case 'outside':
      return words.notCovered;
    case 'choice': {
      const given = [...outcome.things.map(({ label }) => label), ...(outcome.gap ? [words.nothingChosen] : [])];
      return given.length === 0 ? words.notTaken : given.join(` ${words.or} `);
    }
    case 'time':
      return outcome.total === undefined ? words.neverEnds : durations(outcome.total, words);
    case 'findings': {
      if (outcome.worst === undefined) return words.noFindings;
      return `${words.countOfFindings(outcome.count)}, ${words.worst[outcome.worst]}`;
    }
  }
}

/** The looks of every outcome that comes about, by the outcome as JSON: class names of the style sheet. */
export function outcomeKinds({ regions }: Coverage): ReadonlyMap<string, string> {
  const outcomes = new Map(regions.map(({ outcome }) => [JSON.stringify(outcome), outcome] as const));
  const ordered = [...outcomes].sort(([, a], [, b]) => weightOf(a) - weightOf(b));
  // What has no tone of its own stands behind everything that has.
  const toned = ordered.filter(([, outcome]) => weightOf(outcome) < noTone).length;
  return new Map(ordered.map(([key, outcome], index) => [key, lookOf(outcome, index, toned)]));
}

/** What the legend says, by the look that it explains. */
export function legendOf(coverage: Coverage, words: Words): ReadonlyMap<string, string> {
  const kinds = outcomeKinds(coverage);
  const said = new Map<string, string>();
  for (const [key, kind] of kinds) {
    const outcome = coverage.regions.find((region) => JSON.stringify(region.outcome) === key)?.outcome;
    if (outcome === undefined || said.has(kind)) continue;
    said.set(kind, explained(outcome, kind, words));
  }
  return new Map([...said].filter(([, text]) => text !== ''));
}

/** Times and counts stand in the grid; the legend says what the tones mean. */
function explained(outcome: Outcome, kind: string, words: Words): string {
  if (outcome.kind === 'findings') return outcome.worst === undefined ? words.noFindings : words.worst[outcome.worst];
  if (outcome.kind !== 'time' || outcome.total === undefined) return outcomeWords(outcome, words);
  return kind.endsWith('time-0') ? words.shortest : kind.endsWith('time-4') ? words.longest : '';
}

/** Weights from here on are of what is not told apart by tones. */
const noTone = 1e12;

/** Times by their middle, findings by their number; what lies outside comes last. */
function weightOf(outcome: Outcome): number {
  switch (outcome.kind) {
    case 'outside':
      return 2 * noTone;
    case 'choice':
      return outcome.things.length + (outcome.gap ? noTone : 0);
    case 'time':
      return outcome.total === undefined ? noTone : outcome.total.least + (outcome.total.most ?? 1e9);
    case 'findings':
      return outcome.count;
  }
}

function lookOf(outcome: Outcome, index: number, count: number): string {
  switch (outcome.kind) {
    case 'outside':
      return 'outside';
    case 'choice':
      return outcome.gap ? 'gap' : `choice choice-${index % 6}`;
    case 'time':
      return outcome.total === undefined
        ? 'gap'
        : `time time-${Math.min(4, Math.floor((index / Math.max(1, count - 1)) * 4))}`;
    case 'findings':
      return `found ${outcome.worst ?? 'none'}`;
  }
}
