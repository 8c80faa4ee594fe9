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
      return `${words.countOfFindings(outcome.count)}, ${words.severity[outcome.worst].toLowerCase()}`;
    }
  }
}

/** The looks of every outcome that comes about, by the outcome as JSON: class names of the style sheet. */
export function outcomeKinds({ regions }: Coverage): ReadonlyMap<string, string> {
  const outcomes = new Map(regions.map(({ outcome }) => [JSON.stringify(outcome), outcome] as const));
  const ordered = [...outcomes].sort(([, a], [, b]) => weightOf(a) - weightOf(b));
  return new Map(ordered.map(([key, outcome], index) => [key, lookOf(outcome, index, ordered.length)]));
}

/** Times by their middle, findings by their number; what lies outside comes last. */
function weightOf(outcome: Outcome): number {
  switch (outcome.kind) {
    case 'outside':
      return Number.MAX_VALUE;
    case 'choice':
      return outcome.things.length + (outcome.gap ? 100 : 0);
    case 'time':
      return outcome.total === undefined ? 1e12 : outcome.total.least + (outcome.total.most ?? 1e9);
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
        : `time time-${Math.min(4, Math.round((index / Math.max(1, count - 1)) * 4))}`;
    case 'findings':
      return `found ${outcome.worst ?? 'none'}`;
  }
}
