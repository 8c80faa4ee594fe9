import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { checkSheets } from '@quarrel/checks';
import { formatText } from '@quarrel/language';
import { describe, expect, test } from 'vitest';
import { expectAllMended } from './mended.js';
import { fixtures, read, type Texts, textsOf } from './reading.js';

const folders = readdirSync(fixtures).sort();

/** The rules of which the fixtures show a mend; a rule that loses its mend is missed here. */
const mended = [
  'always-true',
  'beyond-limits',
  'clash-in-choice',
  'covers-but-always-stops',
  'cure-after-fill',
  'dead-case',
  'film-first',
  'gap-in-choice',
  'goal-never-made',
  'hazard-unannounced',
  'heated-too-fast',
  'hold-backwards',
  'hold-shorter-than-fill',
  'hold-without-limit',
  'leave-it-polished',
  'meanwhile-outlasts-hold',
  'mixed-and-or',
  'never-true',
  'no-late-flex',
  'no-long-press',
  'press-anyway',
  'press-soon',
  'reason-missing',
  'repeat-without-exit',
  'slow-cold-hold',
  'stale-waiver',
  'unit-missing',
  'unknown-name',
  'unknown-sheet',
  'unknown-unit',
  'unmet-need',
  'unreachable-step',
  'unread-condition',
  'unused-declaration',
];

const examples = fileURLToPath(new URL('../../examples/', import.meta.url));

function sheetsIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.quarrel'));
}

describe('every mend takes its finding away and leaves a sheet that can be read, in the house style', () => {
  test.each(folders)('%s', async (folder) => {
    await expectAllMended(inHouseStyle(textsOf(folder)), 'formatted');
  });

  test('as written in the fixtures, marks and all', async () => {
    for (const folder of folders) await expectAllMended(textsOf(folder), 'formatted');
  });

  test.each(sheetsIn(examples))('%s', async (path) => {
    const text = readFileSync(`${examples}${path}`, 'utf8');
    const findings = await expectAllMended({ sheet: text }, 'formatted');
    if (path.includes('faulty-draft')) expect(findings.flatMap(({ mends }) => mends).length).toBeGreaterThan(30);
  });
});

test('the rules that can be mended mechanically are', async () => {
  const found = new Set<string>();
  for (const folder of folders) {
    for (const { rule, mends } of checkSheets(await read(textsOf(folder))).findings)
      if (mends.length > 0) found.add(rule);
  }
  expect([...found]).toEqual(expect.arrayContaining(mended));
});

/** Without the marks, which would be in the way of what is added. */
function inHouseStyle(texts: Texts): Texts {
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, formatText(text.replace(/^\s*\/\/\s*\^.*\n/gm, '')).text]),
  );
}
