import type { Finding, WaivedFinding } from '@quarrel/checks';
import type { Severity } from '@quarrel/model';
import { printable } from './printable.js';
import type { Report, SilentIn } from './report.js';
import { wrapped } from './rows.js';
import { paints, placeOf, type Surroundings, textOf } from './text.js';
import { counted, listed } from './words.js';

/** A whole report for people: the findings, what was waived, and a line that sums it up. */
export function reportText(report: Report, surroundings: Surroundings): string {
  const parts = [
    ...report.findings.map((finding) => textOf(finding, surroundings)),
    ...(report.waived.length === 0 ? [] : [waivedText(report.waived, surroundings)]),
    ...(report.silences === undefined ? [] : [silencesText(report.silences, surroundings)]),
    summaryText(report),
  ];
  return parts.join('\n');
}

function waivedText(waived: readonly WaivedFinding[], surroundings: Surroundings): string {
  const { label } = paints(surroundings.colours);
  const lines = waived.flatMap(({ finding, because }) => [
    `  ${finding.rule}  ${placeOf(finding.range, surroundings)}`,
    ...wrapped(printable(because), 90).map((line) => `      ${label(line)}`),
  ]);
  return `Waived, with the reason on record: ${counted(waived.length, 'finding')}\n${lines.join('\n')}\n`;
}

function silencesText(silences: readonly SilentIn[], surroundings: Surroundings): string {
  if (silences.length === 0) return 'No estimate is silent.\n';
  const { label } = paints(surroundings.colours);
  const lines = silences.flatMap(({ procedure, silent: { rules, message, wakes, range } }) => [
    `  ${procedure.name}  ${listed(rules, 'and')}`,
    ...wrapped(printable(message), 90).map((line) => `      ${line}`),
    `      ${label('would wake')}  ${printable(wakes)}`,
    ...(range === undefined ? [] : [`      ${label('belongs to')}  ${placeOf(range, surroundings)}`]),
  ]);
  return `Estimates that are silent: ${counted(silences.length, 'reason')}. The values shown are examples.\n${lines.join('\n')}\n`;
}

function summaryText({ findings, waived, procedures, sheets }: Report): string {
  const found = findings.length === 0 ? 'No findings' : listed(severityCounts(findings), 'and');
  const beside = waived.length === 0 ? '' : `, ${waived.length} waived`;
  const where = `${counted(procedures.length, 'procedure')} in ${counted(sheets, 'sheet')}`;
  // Of a procedure that is too tangled nobody has seen every situation.
  const isWhole = procedures.length > 0 && procedures.every(({ interpretation }) => interpretation.kind === 'run');
  const scope = isWhole ? `, over every situation ${procedures.length === 1 ? 'it covers' : 'they cover'}` : '';
  return `${found}${beside}. Checked: ${where}${scope}.
What may be repaired and driven is for local law and a qualified person to decide.
`;
}

/** `2 errors`, `1 warning`; what there is none of is left out. */
export function severityCounts(findings: readonly Finding[]): readonly string[] {
  const words: readonly (readonly [Severity, string])[] = [
    ['error', 'error'],
    ['warning', 'warning'],
    ['info', 'info'],
  ];
  return words.flatMap(([severity, word]) => {
    const count = countOf(findings, severity);
    return count === 0 ? [] : [counted(count, word)];
  });
}

export function countOf(findings: readonly Finding[], severity: Severity): number {
  return findings.filter((finding) => finding.severity === severity).length;
}
