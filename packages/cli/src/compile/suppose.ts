import { compileProcedure } from '@quarrel/checklist';
import { checkSheets, testInWords } from '@quarrel/checks';
import { parseTest } from '@quarrel/language';
import type { Procedure, Test } from '@quarrel/model';
import { type Refusal, refusal } from '../io.js';

/** What `--for` says, in terms of one procedure. */
export function supposedFor(
  procedure: Procedure,
  texts: readonly string[],
): { readonly kind: 'supposed'; readonly tests: readonly Test[] } | Refusal {
  const tests: Test[] = [];
  for (const text of texts) {
    const { test, problems } = parseTest(text, procedure.vocabulary);
    if (problems.some(({ rule }) => rule === 'syntax')) {
      return refusal(
        `--for "${text}" is not a condition.`,
        'Write it like "break is star" or "glass-temperature below 10 °C".',
      );
    }
    if (problems.length > 0) {
      const [first] = checkSheets([{ uri: '', procedures: [], acts: [], rules: [], problems }]).findings;
      return refusal(`--for "${text}" cannot be read for ${procedure.name}: ${first?.message ?? ''}`, first?.advice);
    }
    if (coversNone(procedure, [test]))
      return refusal(`${procedure.name} covers no situation in which ${text}.`, covered(procedure));
    tests.push(test);
  }
  if (tests.length > 1 && coversNone(procedure, tests)) {
    return refusal(
      `${procedure.name} covers no situation in which all of this holds: ${texts.join('; ')}.`,
      covered(procedure),
    );
  }
  return { kind: 'supposed', tests };
}

function coversNone(procedure: Procedure, suppose: readonly Test[]): boolean {
  return compileProcedure(procedure, { suppose }).kind === 'not-covered';
}

function covered({ name, covers }: Procedure): string {
  if (covers.length === 0) return 'Look at the limits of the readings it can speak of.';
  return `${name} covers: ${covers.map(testInWords).join('; ')}.`;
}
