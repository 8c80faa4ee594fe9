import { checkSheets, ruleCatalogue } from '@quarrel/checks';
import { describe, expect, test } from 'vitest';
import { pageNames, pageOf, record, said } from './pages.js';
import { read } from './reading.js';

const sections = ['## Why', '## A sheet that fails', '## What Quarrel says', '## Mended', '## How to mend it'];

const names = ruleCatalogue.map(({ name }) => name);

test('every rule of the catalogue has a page', () => {
  expect(pageNames()).toEqual(expect.arrayContaining(names));
});

describe('the examples of a rule’s page run', () => {
  test.each(names)('%s', async (name) => {
    const page = pageOf(name);
    expect(page.headings).toEqual([`# ${name}`, ...sections]);

    const { findings } = checkSheets(await read({ page: page.fails }));
    expect(findings.map(({ rule }) => rule)).toContain(name);
    const says = said(findings);
    if (process.env.QUARREL_RECORD === '1') record(name, says);
    else expect(page.says).toBe(says);

    const mended = checkSheets(await read({ page: page.mended }));
    expect(said(mended.findings)).toBe('');
  });
});
