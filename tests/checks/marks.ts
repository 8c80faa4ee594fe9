import type { Finding } from '@quarrel/checks';

/**
 * A finding that a sheet says to expect, written under the code:
 * `//      ^^^^ error[gap-in-choice]: part of the message @ break is star`.
 */
export interface Mark {
  readonly severity: string;
  readonly rule: string;
  /** Counted from 0, of the line above that is no mark. */
  readonly line: number;
  readonly column: number;
  readonly length: number;
  /** A part of the message. */
  readonly message: string;
  /** The whole region; missing where the finding has no situation. */
  readonly region?: string;
}

const form = /^(\s*\/\/\s*)(\^+) (error|warning|info)\[([a-z0-9-]+)\](?:: (.*?))?(?: @ (.*))?$/;

/** The marks of a sheet. A comment with a caret that is not a mark is a slip, and thrown. */
export function marksIn(text: string): readonly Mark[] {
  const marks: Mark[] = [];
  let code = 0;
  for (const [line, content] of text.split('\n').entries()) {
    const parts = form.exec(content);
    if (parts === null) {
      if (/^\s*\/\/\s*\^/.test(content)) throw new Error(`line ${line + 1} is no mark: ${content}`);
      code = line;
      continue;
    }
    const [, indent = '', carets = '', severity = '', rule = '', message = '', region] = parts;
    const mark = { severity, rule, line: code, column: indent.length, length: carets.length, message };
    marks.push(region === undefined ? mark : { ...mark, region });
  }
  return marks;
}

/** Whether a finding is the one marked. */
export function matches(mark: Mark, finding: Finding): boolean {
  const { range } = finding;
  return (
    mark.rule === finding.rule &&
    mark.severity === finding.severity &&
    mark.line === range.start.line &&
    mark.column === range.start.column &&
    range.end.line === range.start.line &&
    mark.length === Math.max(1, range.end.column - range.start.column) &&
    finding.message.includes(mark.message) &&
    mark.region === finding.situation?.region
  );
}

/** The mark that a finding asks for, as it would be written. */
export function markFor(finding: Finding): string {
  const { start, end } = finding.range;
  const carets = '^'.repeat(Math.max(1, end.column - start.column));
  const region = finding.situation === undefined ? '' : ` @ ${finding.situation.region}`;
  return `//${' '.repeat(Math.max(0, start.column - 2))}${carets} ${finding.severity}[${finding.rule}]: ${finding.message}${region}`;
}
