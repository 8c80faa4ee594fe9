import { places } from './digest.js';

/** Words for people, and waivers: whatever they say, the work goes the same way. */
const words = new Set([
  'label',
  'documentation',
  'notes',
  'photos',
  'because',
  'source',
  'revision',
  'measures',
  'until',
  'waivers',
]);

/**
 * Whether the work goes the same way by both, so that what one of them was computed to mean is what the other means: they may
 * differ in places and in words for people. Finding that out takes a fraction of what a digest takes, and the same object on
 * both sides takes nothing.
 */
export function runsAlike(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (Array.isArray(one)) {
    return Array.isArray(other) && one.length === other.length && one.every((part, at) => runsAlike(part, other[at]));
  }
  return isData(one) && isData(other) && covers(one, other) && hasKeysOf(one, other);
}

type Data = Readonly<Record<string, unknown>>;

function isData(value: unknown): value is Data {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function covers(one: Data, other: Data): boolean {
  for (const key in one) {
    if (matters(key, one) && !runsAlike(one[key], other[key])) return false;
  }
  return true;
}

function hasKeysOf(one: Data, other: Data): boolean {
  for (const key in other) {
    if (one[key] === undefined && other[key] !== undefined && matters(key, other)) return false;
  }
  return true;
}

/** The text of a quantity tells how it is said in regions; any other text is for people. */
function matters(key: string, owner: Data): boolean {
  if (key === 'text') return owner.si !== undefined;
  return !places.has(key) && !words.has(key);
}
