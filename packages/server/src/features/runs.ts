import { type Numbering, numberingOf, type Run } from '@quarrel/analysis';
import type { CheckReport, Finding, ProcedureReport, WaivedFinding } from '@quarrel/checks';
import { ast, isSheetDocument, procedureAround, type SheetDocument } from '@quarrel/language';
import { type Flow, flowIn, type Procedure, type Step, stepsOf } from '@quarrel/model';
import { type AstNode, AstUtils } from 'langium';
import { contains, positionOf } from '../check/places.js';
import type { LanguageServices } from '../services.js';

/** A procedure with all that the checks found out about it. */
export interface Known {
  readonly procedure: Procedure;
  /** What is wrong with it, as the work and as text. */
  readonly findings: readonly Finding[];
  /** What it takes on purpose. */
  readonly waived: readonly WaivedFinding[];
  readonly steps: readonly Step[];
  readonly numbering: Numbering;
  /** Missing where the procedure is too tangled to be run. */
  readonly run?: Run;
  /** The part of its flow that begins at the same place as a node of the tree. */
  partOf(node: AstNode): Flow | undefined;
}

const known = new WeakMap<ProcedureReport, Known>();

/** What is known of the procedures of a sheet, in the order written. The sheet has to be linked. */
export function knownIn(document: SheetDocument, services: LanguageServices): readonly Known[] {
  const whole = services.check.Checks.of(document);
  const nodes = document.parseResult.value.declarations.filter(ast.isProcedure);
  return whole.procedures.map((report, at) => knownOf(report, whole, nodes[at]));
}

/** What is known of the procedure around a node of the tree; nothing outside of one. */
export function knownAround(node: AstNode, services: LanguageServices): Known | undefined {
  const around = procedureAround(node);
  const document = AstUtils.findRootNode(node).$document;
  if (!ast.isProcedure(around) || document === undefined || !isSheetDocument(document)) return undefined;
  const whole = services.check.Checks.of(document);
  const report = whole.procedures[document.parseResult.value.declarations.filter(ast.isProcedure).indexOf(around)];
  return report === undefined ? undefined : knownOf(report, whole, around);
}

/** What is known of the procedure around a node, or else of every procedure of the sheet that it is asked about in. */
export function knownNear(node: AstNode, document: SheetDocument, services: LanguageServices): readonly Known[] {
  const around = knownAround(node, services);
  return around === undefined ? knownIn(document, services) : [around];
}

function knownOf(report: ProcedureReport, whole: CheckReport, node: ast.Procedure | undefined): Known {
  const before = known.get(report);
  if (before !== undefined) return before;
  const { procedure, interpretation } = report;
  const places = new Map<string, Flow>();
  for (const part of flowIn(procedure.body)) {
    if (part.whole !== undefined) places.set(placeOf(part.whole.start.line, part.whole.start.column), part);
  }
  const made: Known = {
    procedure,
    findings: findingsIn(report, whole, node),
    waived: report.waived,
    steps: stepsOf(procedure),
    numbering: numberingOf(procedure),
    ...(interpretation.kind === 'run' ? { run: interpretation.run } : {}),
    partOf: (node) => {
      const start = node.$cstNode?.range.start;
      return start === undefined ? undefined : places.get(placeOf(start.line, start.character));
    },
  };
  known.set(report, made);
  return made;
}

/** The findings of a procedure, and those of its sheet that stand in it: of texts nobody says what they belong to. */
function findingsIn(
  { procedure, findings }: ProcedureReport,
  whole: CheckReport,
  node: ast.Procedure | undefined,
): readonly Finding[] {
  const range = node?.$cstNode?.range;
  if (range === undefined) return findings;
  const own = new Set(findings);
  return whole.findings.filter(
    (finding) =>
      own.has(finding) ||
      (finding.procedure === undefined &&
        finding.range.uri === procedure.uri &&
        contains(range, positionOf(finding.range.start))),
  );
}

function placeOf(line: number, column: number): string {
  return `${line}:${column}`;
}
