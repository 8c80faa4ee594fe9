import { checkSheets, type Finding, type Mend } from '@quarrel/checks';
import { formatText } from '@quarrel/language';
import { expect } from 'vitest';
import { applied, type Place, placeAfter } from './applied.js';
import { read, type Texts } from './reading.js';

/** How the sheet has to look with a mend: as the formatter writes it, or at least so that the formatter can read it. */
export type Style = 'formatted' | 'readable';

/** Tries each mend of each finding on its own; returns the findings. */
export async function expectAllMended(texts: Texts, style: Style): Promise<readonly Finding[]> {
  const { findings } = checkSheets(await read(texts));
  for (const finding of findings) {
    for (const mend of finding.mends) await expectMended(texts, style, findings, finding, mend);
  }
  return findings;
}

/** The finding is gone, nothing is said of the text that was not said before, and what was in the house style still is. */
async function expectMended(
  texts: Texts,
  style: Style,
  findings: readonly Finding[],
  finding: Finding,
  mend: Mend,
): Promise<void> {
  const after = applied(texts, mend.edits);
  const left = checkSheets(await read(after)).findings;
  const where = `${finding.rule} at line ${finding.range.start.line + 1}: ${mend.title}`;
  const shown = `${where}\n${Object.values(after).join('\n')}`;
  const place = placeAfter(texts, mend.edits, finding.range);
  if (place === undefined) {
    // What has been taken out stood somewhere; what it kept from being found may be found now.
    expect(alike(left, finding).length, shown).toBeLessThan(alike(findings, finding).length);
  } else {
    expect(left.filter((one) => isOfSameRule(one, finding) && isAt(one, place)).length, shown).toBeLessThan(
      findings.filter((one) => isOfSameRule(one, finding) && isAt(one, finding.range)).length,
    );
    expect(alike(left, finding).filter((one) => isAt(one, place)).length, shown).toBeLessThan(
      alike(findings, finding).filter((one) => isAt(one, finding.range)).length,
    );
  }
  expect(ofText(left), shown).toBeLessThanOrEqual(ofText(findings));
  for (const [name, text] of Object.entries(after)) {
    const formatted = formatText(text).text;
    expect(formatText(formatted).text, where).toBe(formatted);
    const wasFormatted = isFormatted(texts[name] ?? '');
    if (style === 'formatted' && wasFormatted && widestLine(text) <= 100) expect(text, where).toBe(formatted);
  }
}

function isFormatted(text: string): boolean {
  return formatText(text).text === text;
}

function widestLine(text: string): number {
  return Math.max(...text.split('\n').map((line) => line.length));
}

function isOfSameRule(one: Finding, other: Finding): boolean {
  return one.rule === other.rule && one.procedure === other.procedure;
}

/** The findings that say the same of the same procedure. */
function alike(findings: readonly Finding[], other: Finding): readonly Finding[] {
  return findings.filter((one) => isOfSameRule(one, other) && one.message === other.message);
}

function isAt({ range }: Finding, { uri, start }: Place): boolean {
  return range.uri === uri && range.start.line === start.line && range.start.column === start.column;
}

function ofText(findings: readonly Finding[]): number {
  return findings.filter(({ rule }) => rule === 'syntax' || rule === 'unknown-name').length;
}
