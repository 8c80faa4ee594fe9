import { readdirSync } from 'node:fs';
import { checkSheets, type Finding, type Mend } from '@quarrel/checks';
import { formatText } from '@quarrel/language';
import { describe, expect, test } from 'vitest';
import { applied } from './applied.js';
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
  'hold-backwards',
  'hold-without-limit',
  'leave-it-polished',
  'meanwhile-outlasts-hold',
  'mixed-and-or',
  'never-true',
  'no-late-flex',
  'no-long-press',
  'press-anyway',
  'press-soon',
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

describe('every mend takes its finding away and leaves a sheet that can be read, in the house style', () => {
  test.each(folders)('%s', async (folder) => {
    const texts = inHouseStyle(textsOf(folder));
    const { findings } = checkSheets(await read(texts));
    for (const finding of findings) {
      for (const mend of finding.mends) await expectMended(texts, findings, finding, mend);
    }
  });
});

test('the rules that can be mended mechanically are', async () => {
  const found = new Set<string>();
  for (const folder of folders) {
    for (const { rule, mends } of checkSheets(await read(textsOf(folder))).findings)
      if (mends.length > 0) found.add(rule);
  }
  expect([...found].sort()).toEqual(mended);
});

async function expectMended(texts: Texts, findings: readonly Finding[], finding: Finding, mend: Mend): Promise<void> {
  const after = applied(texts, mend.edits);
  const left = checkSheets(await read(after)).findings;
  const where = `${finding.rule} at line ${finding.range.start.line + 1}: ${mend.title}`;
  const shown = `${where}\n${Object.entries(after)
    .map(([, text]) => text)
    .join('\n')}`;
  expect(alike(left, finding), shown).toBe(alike(findings, finding) - 1);
  expect(ofText(left), shown).toBeLessThanOrEqual(ofText(findings));
  for (const text of Object.values(after)) expect(text, where).toBe(formatText(text).text);
}

/** Without the marks, which would be in the way of what is added. */
function inHouseStyle(texts: Texts): Texts {
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, formatText(text.replace(/^\s*\/\/\s*\^.*\n/gm, '')).text]),
  );
}

/** How many findings say the same of the same procedure. */
function alike(findings: readonly Finding[], one: Finding): number {
  return findings.filter(
    ({ rule, message, procedure }) => rule === one.rule && message === one.message && procedure === one.procedure,
  ).length;
}

function ofText(findings: readonly Finding[]): number {
  return findings.filter(({ rule }) => rule === 'syntax' || rule === 'unknown-name').length;
}
