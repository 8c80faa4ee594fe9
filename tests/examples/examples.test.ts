import { readFileSync } from 'node:fs';
import { checkSheets } from '@quarrel/checks';
import { readSheets } from '@quarrel/language';
import { expect, test } from 'vitest';

const folder = new URL('../../examples/', import.meta.url);

async function findingsIn(...paths: readonly string[]) {
  const { sheets } = await readSheets(
    paths.map((path) => new URL(path, folder).href),
    {
      read: async (uri) =>
        uri.startsWith('file:') ? { kind: 'text', text: readFileSync(new URL(uri), 'utf8') } : { kind: 'missing' },
    },
  );
  return checkSheets(sheets).findings.map(({ rule, range }) => ({ rule, line: range.start.line + 1 }));
}

test.each([
  ['school/stone-chip.quarrel', 'school/surface-pit.quarrel', 'school/equipment.quarrel', 'school/house-rules.quarrel'],
  ['other-trades/short-crack.quarrel'],
  ['other-trades/headlamp-lens.quarrel'],
  ['other-trades/composite-patch.quarrel'],
])('%s has no findings', async (...paths) => {
  expect(await findingsIn(...paths)).toEqual([]);
});

test('the draft has the faults that its page lists, and no others', async () => {
  const page = readFileSync(new URL('draft/README.md', folder), 'utf8');
  const listed = [...page.matchAll(/^\| ([\d, ]+) \|.*?\| `([a-z-]+)` \|/gm)].map(([, lines = '', rule = '']) => ({
    rule,
    line: Number(lines.split(',')[0]),
  }));
  const inOrder = (all: readonly { readonly rule: string; readonly line: number }[]) =>
    all.map(({ rule, line }) => `${line} ${rule}`).sort();
  expect(listed.length).toBeGreaterThanOrEqual(10);
  expect(inOrder(await findingsIn('draft/faulty-draft.quarrel'))).toEqual(inOrder(listed));
});
