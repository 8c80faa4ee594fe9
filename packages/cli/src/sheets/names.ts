import { relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** How a path is called in outputs: as seen from `cwd`, with `/` between folders. */
export function nameOfPath(path: string, cwd: string): string {
  const name = relative(cwd, path);
  return name === '' ? '.' : name.split(sep).join('/');
}

/** How a sheet is called in outputs: its path as seen from `cwd`, or the name after `use` for what ships. */
export function nameOfSheet(uri: string, cwd: string): string {
  if (uri.startsWith('file:')) return nameOfPath(fileURLToPath(uri), cwd);
  return uri.replace(/^quarrel:\//, 'quarrel:').replace(/\.quarrel$/, '');
}
