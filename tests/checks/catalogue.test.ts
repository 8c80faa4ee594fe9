import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ruleCatalogue } from '@quarrel/checks';
import { expect, test } from 'vitest';

const rules = fileURLToPath(new URL('../../packages/checks/src/rules/', import.meta.url));

/** Rules that speak for what sheets declare, under the names that the sheets give. */
const patterns = ['absence', 'final', 'hold', 'precedence', 'response'];

test.each(ruleCatalogue)('$name stands in a file of its name', ({ name, family }) => {
  expect(existsSync(`${rules}${family}/${name}.ts`)).toBe(true);
});

test('every file under rules/ is in the catalogue, or speaks for a pattern', () => {
  const files = readdirSync(rules).flatMap((family) => readdirSync(`${rules}${family}`));
  const names = files.map((file) => file.replace(/\.ts$/, '')).filter((name) => !patterns.includes(name));
  expect(names.sort()).toEqual(ruleCatalogue.map(({ name }) => name).sort());
});

test('names are in kebab-case and none comes twice', () => {
  const names = ruleCatalogue.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  for (const name of names) expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
});
