import type { CheckReport, Finding, ProcedureReport, Situation, WaivedFinding } from '@quarrel/checks';
import { type Severity, type Step, stepsOf } from '@quarrel/model';
import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
} from 'vscode-languageserver';
import { pageUri } from '../rule-pages.js';
import { locationOf, rangeOf } from './places.js';

/** What an editor shows as the origin of our findings. */
const source = 'quarrel';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

/** What a sheet shows that could not be checked for a reason that is none of its author's. */
export const faultOfOurs: Diagnostic = {
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  severity: DiagnosticSeverity.Error,
  source,
  message:
    'This sheet could not be checked: Quarrel made a mistake of its own, which its log tells. Nothing is known of this sheet until it can be checked again.',
};

/** Rules that say of a stretch of text that it does nothing. */
const idle = new Set(['dead-case', 'unused-declaration', 'never-true']);

/** The findings of a sheet as an editor shows them; what stands in other sheets is told there. */
export function diagnosticsOf(report: CheckReport, uri: string): readonly Diagnostic[] {
  return [
    ...report.findings.filter(({ range }) => range.uri === uri).map(diagnosticOf),
    ...report.waived.filter(({ finding }) => finding.range.uri === uri).map(waivedDiagnosticOf),
    ...report.procedures.flatMap(unreached),
  ];
}

function diagnosticOf(finding: Finding): Diagnostic {
  const page = pageUri(finding.rule);
  const related = relatedOf(finding);
  return {
    range: rangeOf(finding.range),
    severity: severities[finding.severity],
    source,
    code: finding.rule,
    ...(page === undefined ? {} : { codeDescription: { href: page } }),
    message: messageOf(finding),
    ...(related.length === 0 ? {} : { relatedInformation: related }),
    ...(idle.has(finding.rule) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
  };
}

/** What is taken on purpose stays in sight, and out of the way. */
function waivedDiagnosticOf({ finding, because }: WaivedFinding): Diagnostic {
  return {
    ...diagnosticOf(finding),
    severity: DiagnosticSeverity.Hint,
    message: `Waived, because: ${because}\n${messageOf(finding)}`,
  };
}

/** The fact, then in which situations, why, what to do and where the reason comes from, each on a line of its own. */
export function messageOf({ message, situation, because, source, advice }: Finding): string {
  return [
    message,
    ...(situation === undefined ? [] : [`When: ${whenOf(situation)}`]),
    ...(because === undefined ? [] : [`Why: ${because}`]),
    ...(advice === undefined ? [] : [`To do: ${advice}`]),
    ...(source === undefined ? [] : [`Source: ${source}`]),
  ].join('\n');
}

function whenOf({ region, lines }: Situation): string {
  return region === 'always' || lines.length === 0 ? 'in every situation that reaches it' : lines.join('; or ');
}

/** Where the reason stands, then the steps that lead to the place, in order. */
function relatedOf({ related = [], situation }: Finding): DiagnosticRelatedInformation[] {
  const path = situation?.path ?? [];
  return [
    ...related.map(({ message, range }) => ({ message, location: locationOf(range) })),
    ...path.map(({ text, range }, at) => ({
      message: `Step ${at + 1} of ${path.length} on the way: ${text}`,
      location: locationOf(range),
    })),
  ];
}

/** Steps that no situation reaches are faded from end to end; the finding stands at the first of them. */
function unreached({ procedure, interpretation }: ProcedureReport): readonly Diagnostic[] {
  if (interpretation.kind !== 'run') return [];
  const { steps, situations, covered } = interpretation.run;
  const { nowhere } = situations.store;
  if (covered === nowhere) return [];
  const isFaded = (number: number): boolean => steps[number]?.before.reached === nowhere;
  return stepsOf(procedure).flatMap((step, number) => (isFaded(number) ? faded(step) : []));
}

function faded({ text, whole }: Step): readonly Diagnostic[] {
  if (whole === undefined) return [];
  return [
    {
      range: rangeOf(whole),
      severity: DiagnosticSeverity.Hint,
      source,
      message: `No situation reaches "${text}".`,
      tags: [DiagnosticTag.Unnecessary],
    },
  ];
}
