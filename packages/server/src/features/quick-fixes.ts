import type { Edit, Finding, Mend } from '@quarrel/checks';
import { isSheetDocument } from '@quarrel/language';
import type { LangiumDocument } from 'langium';
import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type Diagnostic,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { overlap, rangeOf } from '../check/places.js';
import type { LanguageServices } from '../services.js';

/** The mends of the findings at the cursor, the best first. */
export function quickFixes(
  document: LangiumDocument,
  { range, context }: CodeActionParams,
  { check }: LanguageServices,
): CodeAction[] {
  if (!isSheetDocument(document)) return [];
  const uri = document.uri.toString();
  const { findings } = check.Checks.of(document);
  return findings
    .filter((finding) => finding.range.uri === uri && overlap(rangeOf(finding.range), range))
    .flatMap((finding) => {
      const diagnostics = context.diagnostics.filter((diagnostic) => tells(diagnostic, finding));
      return finding.mends.map((mend, at) => quickFix(mend, diagnostics, at === 0));
    });
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

/** Edits of one or several sheets as the protocol writes them. */
export function workspaceEdit(edits: readonly Edit[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { range, text } of edits) {
    const those = changes[range.uri] ?? [];
    changes[range.uri] = [...those, { range: rangeOf(range), newText: text }];
  }
  return { changes };
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
