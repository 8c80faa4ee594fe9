import { places } from './digest.js';

/** Words for people with the names made of them, and waivers: whatever they say, the work goes the same way. */
const words = new Set([
  'id',
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
  return isEqual(one, other, counts);
}

/** Whether both say the same in the same places, so that whatever was said of the one can be said of the other. */
export function isSame(one: unknown, other: unknown): boolean {
  return isEqual(one, other, () => true);
}

type Data = Readonly<Record<string, unknown>>;

/** `matters` says which keys of an object are looked at. */
type Matters = (key: string, owner: Data) => boolean;

/** The text of a quantity tells how it is said in regions; any other text is for people. */
const counts: Matters = (key, owner) => (key === 'text' ? owner.si !== undefined : !places.has(key) && !words.has(key));

function isEqual(one: unknown, other: unknown, matters: Matters): boolean {
  if (one === other) return true;
  if (Array.isArray(one)) {
    return (
      Array.isArray(other) && one.length === other.length && one.every((part, at) => isEqual(part, other[at], matters))
    );
  }
  if (!isData(one) || !isData(other)) return false;
  for (const key in one) if (matters(key, one) && !isEqual(one[key], other[key], matters)) return false;
  // What only the other has.
  for (const key in other) {
    if (one[key] === undefined && other[key] !== undefined && matters(key, other)) return false;
  }
  return true;
}

function isData(value: unknown): value is Data {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
