import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readSheets } from '@quarrel/language';
import type { Sheet } from '@quarrel/model';

/** Where the fixtures stand. */
export const fixtures = fileURLToPath(new URL('fixtures/', import.meta.url));

/** Texts by the name of their sheet; every sheet can be used by the others. */
export type Texts = Readonly<Record<string, string>>;

/** Reads sheets of one made-up folder, in the order of their names. */
export async function read(texts: Texts): Promise<readonly Sheet[]> {
  const addressed = new Map(Object.entries(texts).map(([name, text]) => [`file:///shop/${name}.quarrel`, text]));
  const source = {
    read: async (uri: string) => {
      const text = addressed.get(uri);
      return text === undefined ? ({ kind: 'missing' } as const) : ({ kind: 'text', text } as const);
    },
  };
  const { sheets } = await readSheets([...addressed.keys()], source, { workspace: 'file:///shop/' });
  return sheets;
}

/** The texts of one fixture folder. */
export function textsOf(fixture: string): Texts {
  const files = readdirSync(`${fixtures}${fixture}`).filter((file) => file.endsWith('.quarrel'));
  return Object.fromEntries(
    files.sort().map((file) => [file.replace(/\.quarrel$/, ''), readFileSync(`${fixtures}${fixture}/${file}`, 'utf8')]),
  );
}

/** The name that a sheet was read under. */
export function nameOf(uri: string): string {
  return uri.replace(/^file:\/\/\/shop\/|\.quarrel$/g, '');
}
