import { checkSheets, type Finding, type Mend } from '@quarrel/checks';
import { formatText } from '@quarrel/language';
import { expect } from 'vitest';
import { applied, type Place, placeAfter } from './applied.js';
import { read, type Texts } from './reading.js';

/** Tries each mend of each finding on its own; returns the findings. */
export async function expectAllMended(texts: Texts): Promise<readonly Finding[]> {
  const { findings } = checkSheets(await read(texts));
  for (const finding of findings) {
    for (const mend of finding.mends) await expectMended(texts, findings, finding, mend);
  }
  return findings;
}

/** The finding is gone, nothing is said of the text that was not said before, and what was in the house style still is. */
async function expectMended(texts: Texts, findings: readonly Finding[], finding: Finding, mend: Mend): Promise<void> {
  const after = applied(texts, mend.edits);
  const left = checkSheets(await read(after)).findings;
  const where = `${finding.rule} at line ${finding.range.start.line + 1}: ${mend.title}`;
  const shown = `${where}\n${Object.values(after).join('\n')}`;
  const place = placeAfter(texts, mend.edits, finding.range);
  for (const isAlike of [ofSameRule, sayingTheSame]) {
    const before = findings.filter((one) => isAlike(one, finding) && isAt(one, place && finding.range));
    expect(left.filter((one) => isAlike(one, finding) && isAt(one, place)).length, shown).toBeLessThan(before.length);
  }
  expect(ofText(left), shown).toBeLessThanOrEqual(ofText(findings));
  for (const [name, text] of Object.entries(after)) {
    const formatted = formatText(text).text;
    expect(formatText(formatted).text, where).toBe(formatted);
    if (isInHouseStyle(texts[name] ?? '') && widestLine(text) <= 100) expect(text, where).toBe(formatted);
  }
}

export function isInHouseStyle(text: string): boolean {
  return formatText(text).text === text;
}

function widestLine(text: string): number {
  return Math.max(...text.split('\n').map((line) => line.length));
}

function ofSameRule(one: Finding, other: Finding): boolean {
  return one.rule === other.rule && one.procedure === other.procedure;
}

function sayingTheSame(one: Finding, other: Finding): boolean {
  return ofSameRule(one, other) && one.message === other.message;
}

function isAt({ range }: Finding, place: Place | undefined): boolean {
  // What has been taken out stood somewhere; there is no telling where it would stand now.
  if (place === undefined) return true;
  const { uri, start } = place;
  return range.uri === uri && range.start.line === start.line && range.start.column === start.column;
}

function ofText(findings: readonly Finding[]): number {
  return findings.filter(({ rule }) => rule === 'syntax' || rule === 'unknown-name').length;
}
