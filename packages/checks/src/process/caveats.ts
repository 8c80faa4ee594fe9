import type { Caveat } from '@quarrel/process';

/** What has to be told beside an estimate, as sentences that follow others; each once. */
export function caveatsInWords(caveats: readonly Caveat[]): string {
  return [...new Set(caveats)].map((caveat) => ` ${sentences[caveat]}`).join('');
}

const sentences: Readonly<Record<Caveat, string>> = {
  'single-point': 'The datasheet gives one viscosity and does not tell how it changes with temperature.',
  'single-point-colder': 'The datasheet gives one viscosity; a colder resin is thicker, and nobody knows how much.',
  'single-point-warmer': 'The datasheet gives one viscosity; a warmer resin is thinner, and nobody knows how much.',
  'colder-than-data': 'That is colder than any viscosity on the datasheet, so it can well take longer.',
  'warmer-than-data': 'It turns where it is warmer than any viscosity on the datasheet, so nobody knows quite where.',
  'fits-loosely': 'The curve misses a viscosity of the datasheet by more than 5 %.',
  'nearer-than-given': 'Nearer than its datasheet has it, a lamp is counted as no stronger.',
  'only-as-a-whole':
    'One part of the glass, warmed or cooled alone, differs from the rest by all of the change, however slowly it is done.',
  'unsure-gap': 'The repairs that the gap was found from differ by more than a factor of two.',
};
