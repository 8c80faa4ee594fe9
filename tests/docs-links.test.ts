import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { pagesOf } from './pages.js';

/** Links whose target is a page of ours, and paths in backticks that look like files of the repository. */
function targetsOf(page: string): readonly { readonly text: string; readonly path: string }[] {
  const text = readFileSync(page, 'utf8').replace(/^```[\s\S]*?^```/gm, '');
  const links = [...text.matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g)]
    .map((match) => match[1] ?? '')
    .filter((link) => !/^[a-z]+:/.test(link))
    .map((link) => ({ text: link, path: join(dirname(page), link) }));
  const paths = [...text.matchAll(/`((?:packages|tests|docs|examples|syntaxes|\.scripts|\.ci)\/[^`\s*{}]*)`/g)]
    .map((match) => match[1] ?? '')
    .filter((path) => !/[A-Z]{3}|dist|…/.test(path))
    .map((path) => ({ text: path, path: join(pagesOf.root, path) }));
  return [...links, ...paths];
}

test.each(pagesOf.all())('%s links only to what is there', (page) => {
  const missing = targetsOf(join(pagesOf.root, page)).filter(({ path }) => !existsSync(path));
  expect(missing.map(({ text }) => text)).toEqual([]);
});
