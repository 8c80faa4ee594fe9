import { type CheckReport, type Finding, type Mend, waiversFor } from '@quarrel/checks';
import type { SheetDocument } from '@quarrel/language';
import { type CodeAction, CodeActionKind, type CodeActionParams, type Diagnostic } from 'vscode-languageserver';
import { overlap, rangeOf } from '../../check/places.js';
import type { LanguageServices } from '../../services.js';
import type { EditSkills } from './code-actions.js';
import { workspaceEdit } from './edits.js';
import { straightQuotes } from './fix-all.js';
import { waiverEdit } from './waivers.js';

/** The mends of the findings at the cursor, the best first; behind all of them the ways to take a finding on purpose. */
export function quickFixes(
  document: SheetDocument,
  { range, context }: CodeActionParams,
  services: LanguageServices,
  skills: EditSkills,
): CodeAction[] {
  const uri = document.uri.toString();
  const report = services.check.Checks.of(document);
  const findings = report.findings.filter((one) => one.range.uri === uri && overlap(rangeOf(one.range), range));
  const diagnosticsOf = (finding: Finding): Diagnostic[] => context.diagnostics.filter((one) => tells(one, finding));
  const mends = findings.flatMap((finding) => {
    const quotes = finding.rule === 'syntax' ? straightQuotes(document, finding.range, services) : [];
    const all = [...finding.mends, ...quotes];
    return all.map((mend, at) => quickFix(mend, diagnosticsOf(finding), at === 0));
  });
  const waivers = findings.flatMap((finding) =>
    waiversOf(finding, report).map((waiving) => ({
      ...quickFix(waiving, diagnosticsOf(finding), false),
      edit: waiverEdit(waiving, document, skills),
    })),
  );
  return [...mends, ...waivers];
}

function quickFix(mend: Mend, diagnostics: Diagnostic[], isPreferred: boolean): CodeAction {
  return {
    title: mend.title,
    kind: CodeActionKind.QuickFix,
    diagnostics,
    isPreferred,
    edit: workspaceEdit(mend.edits),
  };
}

function waiversOf(finding: Finding, { procedures }: CheckReport): ReturnType<typeof waiversFor> {
  const owner = procedures.find(({ findings }) => findings.includes(finding));
  return owner === undefined ? [] : waiversFor(finding, owner.procedure);
}

function tells(diagnostic: Diagnostic, finding: Finding): boolean {
  const { start, end } = rangeOf(finding.range);
  const at = diagnostic.range;
  return (
    diagnostic.code === finding.rule &&
    at.start.line === start.line &&
    at.start.character === start.character &&
    at.end.line === end.line &&
    at.end.character === end.character
  );
}
