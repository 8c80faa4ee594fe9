import { type Finding, testInWords } from '@quarrel/checks';
import { countInWords, kindsCovered } from '../kinds-covered.js';
import type { Known } from '../runs.js';
import { heading } from './declarations.js';
import { code, page, paragraphs, plain } from './markdown.js';
import { timeWords } from './words-of-runs.js';

/** A procedure: what it covers, how long it takes, what is found in it. */
export function procedureHover(known: Known): string {
  const { procedure, findings, run } = known;
  const { revision, label, name, documentation } = procedure;
  const title = heading(label, revision === undefined ? 'procedure' : `procedure, revision ${plain(revision)}`, name);
  const total = run?.end.moment.clock.over(run.end.moment.reached);
  return page([
    title,
    [
      ...(total === undefined ? [] : [`${timeWords(total)} in all`]),
      ...(run === undefined ? ['too tangled to be followed'] : []),
      countWords(findings),
    ].join(' · '),
    coversWords(known),
    ...paragraphs(documentation),
  ]);
}

/** Which situations are covered, as far as the procedure tells them apart. */
export function coversWords({ procedure, run }: Known): string | undefined {
  if (run === undefined) return undefined;
  if (run.covered === run.situations.store.nowhere) return 'Covers no situation.';
  return page([
    `Covers ${countInWords(kindsCovered(procedure, run))} of situation`,
    procedure.covers.map((test) => `- ${code(testInWords(test))}`).join('\n'),
  ]);
}

/** `2 errors, 1 warning`. */
export function countWords(findings: readonly Finding[]): string {
  const parts = (['error', 'warning', 'info'] as const).flatMap((severity) => {
    const count = findings.filter((one) => one.severity === severity).length;
    if (count === 0) return [];
    return [`${count} ${severity === 'info' ? 'note' : severity}${count === 1 ? '' : 's'}`];
  });
  return parts.length === 0 ? 'no findings' : parts.join(', ');
}
