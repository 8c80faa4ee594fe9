import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The sheets below a folder of the repository: path and text. */
export function sheetsIn(folder: string): readonly { readonly path: string; readonly text: string }[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.quarrel'))
    .sort()
    .map((name) => ({ path: `${folder}/${name}`, text: readFileSync(`${root}${folder}/${name}`, 'utf8') }));
}
