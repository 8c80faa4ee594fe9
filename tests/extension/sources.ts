import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the extension. */
export const extension = fileURLToPath(new URL('../../packages/extension/', import.meta.url));

/** A text file of the extension. */
export function textOf(path: string): string {
  return readFileSync(join(extension, path), 'utf8');
}

/** A JSON file of the extension. */
export function dataOf(path: string): unknown {
  return JSON.parse(textOf(path));
}

/** A table of texts, such as the words of a language. */
export function wordsIn(path: string): Readonly<Record<string, string>> {
  const entries = Object.entries(dataOf(path) ?? {});
  return Object.fromEntries(entries.map(([key, value]) => [key, String(value)]));
}

/** The sources below a folder of the extension, as one text. */
export function sourcesIn(folder: string): string {
  const files = readdirSync(join(extension, folder), { recursive: true, encoding: 'utf8' });
  return files
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => textOf(join(folder, file)))
    .join('\n');
}

/** Every text in a piece of JSON, with the way that leads to it. */
export function textsIn(value: unknown, way = ''): readonly { readonly way: string; readonly text: string }[] {
  if (typeof value === 'string') return [{ way, text: value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => textsIn(inner, `${way}/${key}`));
}
