import { checkSheets } from '@quarrel/checks';
import { describe, expect, test } from 'vitest';
import { indexTables, ownRules, pageNames, pageOf, record, recordIndex, said, shippedRules, tableOf } from './pages.js';
import { read } from './reading.js';

const sections = ['## Why', '## A sheet that fails', '## What Quarrel says', '## Mended', '## How to mend it'];
const isRecording = process.env.QUARREL_RECORD === '1';

const tradeRules = await shippedRules();
const own = ownRules.map(({ name }) => name);
const trade = tradeRules.map(({ name }) => name);

test('every rule of ours and of the sheets that ship has a page, and every page a rule', () => {
  expect(pageNames()).toEqual([...own, ...trade].sort());
});

test('the index tells of every rule what its page tells', () => {
  const wanted = [tableOf(ownRules), tableOf(tradeRules)];
  if (isRecording) recordIndex(wanted);
  expect(indexTables()).toEqual(wanted);
});

describe('the examples of a rule’s page run', () => {
  test.each([...own, ...trade])('%s', async (name) => {
    const page = pageOf(name);
    expect(page.headings).toEqual([`# ${name}`, ...sections]);
    expect(page.finds).toMatch(/^[^.]+\.$/);

    const report = checkSheets(await read({ page: page.fails }));
    expect(report.findings.map(({ rule }) => rule)).toContain(name);
    const says = said(report, page.fails);
    if (isRecording) record(name, says);
    else expect(page.says).toBe(says);

    const mended = checkSheets(await read({ page: page.mended }));
    expect(said(mended, page.mended)).toBe('');
  });
});

test.each(trade)('the sheet that shows %s shows nothing else', async (name) => {
  const { findings } = checkSheets(await read({ page: pageOf(name).fails }));
  expect(findings.map(({ rule }) => rule)).toEqual([name]);
});
