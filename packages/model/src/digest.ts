import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** Keys that say where something stands; a sheet means the same when its lines move. */
export const places: ReadonlySet<string> = new Set([
  'range',
  'whole',
  'cut',
  'head',
  'clauses',
  'closing',
  'coversRange',
  'coversClosing',
  'otherwiseCut',
  'ruleRange',
  'unreadHold',
  'uri',
]);

/**
 * The digest of what `value` means: SHA-256 over its data without places, in hexadecimal. Texts count, layout and comments
 * do not; the order of keys does not matter, the order of lists does.
 */
export function digestOf(value: unknown): string {
  return bytesToHex(sha256(utf8ToBytes(JSON.stringify(value, withoutPlaces))));
}

function withoutPlaces(this: unknown, key: string, value: unknown): unknown {
  if (places.has(key)) return undefined;
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** The digest as people meet it on a page: its first twelve digits. */
export function shortDigest(digest: string): string {
  return digest.slice(0, 12);
}
