import { readdirSync } from 'node:fs';
import { checkSheets, type Edit, type Finding } from '@quarrel/checks';
import { describe, expect, test } from 'vitest';
import { fixtures, nameOf, read, type Texts, textsOf } from './reading.js';

const folders = readdirSync(fixtures).sort();

/** The rules of which the fixtures show a mend; a rule that loses its mend is missed here. */
const mended = [
  'gap-in-choice',
  'hazard-unannounced',
  'hold-backwards',
  'hold-without-limit',
  'mixed-and-or',
  'repeat-without-exit',
  'stale-waiver',
  'unit-missing',
  'unknown-name',
  'unknown-sheet',
  'unknown-unit',
  'unread-condition',
];

describe('every mend takes its finding away and leaves a sheet that can be read', () => {
  test.each(folders)('%s', async (folder) => {
    const texts = textsOf(folder);
    const { findings } = checkSheets(await read(texts));
    for (const finding of findings) {
      for (const mend of finding.mends) {
        const after = checkSheets(await read(applied(texts, mend.edits))).findings;
        const what = `${finding.rule} at line ${finding.range.start.line + 1}: ${mend.title}`;
        expect(alike(after, finding), what).toBe(alike(findings, finding) - 1);
        expect(ofText(after), what).toBeLessThanOrEqual(ofText(findings));
      }
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

/** How many findings say the same of the same procedure. */
function alike(findings: readonly Finding[], one: Finding): number {
  return findings.filter(
    ({ rule, message, procedure }) => rule === one.rule && message === one.message && procedure === one.procedure,
  ).length;
}

function ofText(findings: readonly Finding[]): number {
  return findings.filter(({ rule }) => rule === 'syntax' || rule === 'unknown-name').length;
}

/** Makes the edits in the texts, the last first, so that the places of the others stay. */
function applied(texts: Texts, edits: readonly Edit[]): Texts {
  const result: Record<string, string> = { ...texts };
  const places = edits.map((edit) => {
    const name = nameOf(edit.range.uri);
    const text = texts[name] ?? '';
    return { name, text: edit.text, start: offsetOf(text, edit.range.start), end: offsetOf(text, edit.range.end) };
  });
  for (const { name, text, start, end } of [...places].sort((a, b) => b.start - a.start)) {
    const old = result[name] ?? '';
    result[name] = old.slice(0, start) + text + old.slice(end);
  }
  return result;
}

function offsetOf(text: string, { line, column }: { readonly line: number; readonly column: number }): number {
  return text.split('\n').slice(0, line).join('\n').length + (line > 0 ? 1 : 0) + column;
}
