import { checklistToHtml, checklistToJson, checklistToMarkdown, compileProcedure } from '@quarrel/checklist';
import type { ProcedureReport } from '@quarrel/checks';
import { parseTest } from '@quarrel/language';
import type { Test } from '@quarrel/model';
import type { ChecklistAnswer, ChecklistParams } from '../protocol.js';

const renderers = { html: checklistToHtml, md: checklistToMarkdown, json: checklistToJson } as const;

/** The checklist of a procedure as it would be written; a draft where it has errors. */
export function answerChecklist(report: ProcedureReport, { suppose, format }: ChecklistParams): ChecklistAnswer {
  const { procedure, findings } = report;
  const tests: Test[] = [];
  for (const text of suppose) {
    const { test, problems } = parseTest(text, procedure.vocabulary);
    if (problems.length > 0) return { kind: 'nothing', reason: `"${text}" is not a condition of ${procedure.label}.` };
    tests.push(test);
  }
  const draft = findings.some(({ severity }) => severity === 'error');
  const compiled = compileProcedure(procedure, { suppose: tests, draft });
  switch (compiled.kind) {
    case 'checklist':
      return { kind: 'checklist', procedure: procedure.name, draft, text: renderers[format](compiled.checklist) };
    case 'not-covered':
      return { kind: 'nothing', reason: `${procedure.label} covers no situation in which ${listed(suppose)}.` };
    case 'too-tangled':
      return {
        kind: 'nothing',
        reason: `${procedure.label} asks about too much at once to be followed: ${compiled.conditions.join(', ')}.`,
      };
  }
}

function listed(suppose: readonly string[]): string {
  return suppose.length === 0 ? 'anything is so' : suppose.join(' and ');
}
