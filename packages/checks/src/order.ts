import type { Finding } from './finding.js';

/** Sheets in the order given (others behind them, by address), then lines, columns, rules and messages. */
export function inOrder(findings: readonly Finding[], sheets: readonly string[]): readonly Finding[] {
  const place = new Map(sheets.map((uri, index) => [uri, index]));
  const sheetOf = ({ range }: Finding): number => place.get(range.uri) ?? sheets.length;
  return [...findings].sort(
    (a, b) =>
      sheetOf(a) - sheetOf(b) ||
      compare(a.range.uri, b.range.uri) ||
      a.range.start.line - b.range.start.line ||
      a.range.start.column - b.range.start.column ||
      compare(a.rule, b.rule) ||
      compare(a.message, b.message) ||
      compare(a.procedure ?? '', b.procedure ?? ''),
  );
}

/** Says once what several procedures or sheets say of one place in the same words. */
export function withoutDuplicates(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return findings.filter((finding) => {
    const { rule, range, message, procedure, situation } = finding;
    const key = JSON.stringify([rule, range, message, procedure, situation?.region]);
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}

// By code unit, so that the order is the same on every machine.
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
