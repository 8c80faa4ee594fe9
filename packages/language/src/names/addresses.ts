import { URI, UriUtils } from 'langium';

/** Where a `use` leads: an address to read, or the reason why it is not followed. */
export type ResolvedUse =
  | { readonly kind: 'address'; readonly uri: string; readonly shipped: boolean }
  | { readonly kind: 'refused'; readonly reason: 'outside' };

const scheme = 'quarrel';
const suffix = '.quarrel';

/** The address of a sheet that ships: `laminated-glass` is at `quarrel:/laminated-glass.quarrel`. */
export function shippedUri(name: string): string {
  return `${scheme}:/${name.endsWith(suffix) ? name : `${name}${suffix}`}`;
}

/** The name of a shipped sheet by its address; `undefined` for any other sheet. */
export function shippedName(uri: string): string | undefined {
  const parsed = URI.parse(uri);
  return parsed.scheme === scheme ? parsed.path.replace(/^\//, '').slice(0, -suffix.length) : undefined;
}

/**
 * Where the path of a `use` leads, seen from the sheet at `from`. `quarrel:NAME` is what ships; everything else is a path
 * relative to the sheet, with `/` or `\` between folders, that must stay inside `workspace` (a folder's URI) if one is given.
 * The ending `.quarrel` may be left out.
 */
export function resolveUse(path: string, from: string, workspace?: string): ResolvedUse {
  if (path.startsWith(`${scheme}:`)) {
    return { kind: 'address', uri: shippedUri(path.slice(scheme.length + 1).replace(/^\/+/, '')), shipped: true };
  }
  const plain = path.trim().replaceAll('\\', '/');
  if (/^([a-z][a-z0-9+.-]+:|[a-z]:|\/)/i.test(plain)) return { kind: 'refused', reason: 'outside' };
  const base = URI.parse(from);
  const whole = plain.endsWith(suffix) ? plain : `${plain}${suffix}`;
  const uri = UriUtils.resolvePath(UriUtils.dirname(base), whole).toString();
  if (base.scheme === scheme) return { kind: 'address', uri, shipped: true };
  if (workspace !== undefined && !isWithin(uri, workspace)) return { kind: 'refused', reason: 'outside' };
  return { kind: 'address', uri, shipped: false };
}

/** Whether the sheet at `uri` stands in `folder` or below it. */
export function isWithin(uri: string, folder: string): boolean {
  const parent = URI.parse(folder).toString().replace(/\/+$/, '');
  return URI.parse(uri).toString().startsWith(`${parent}/`);
}
