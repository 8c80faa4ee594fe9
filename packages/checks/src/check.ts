import { type Interpretation, Outgrown } from '@quarrel/analysis';
import {
  nearest,
  type Problem,
  type Procedure,
  type Severity,
  type Sheet,
  type Step,
  stepsOf,
  type Waiver,
} from '@quarrel/model';
import { declaredRules, flowRules, processRules, ruleCatalogue, sheetRules } from './catalogue.js';
import type { Finding, Mend, Situation, WaivedFinding } from './finding.js';
import { layoutOf } from './layout.js';
import { type Kept, Memory } from './memory.js';
import { inOrder, withoutDuplicates } from './order.js';
import type { Draft, RuleCard, Work } from './rule.js';
import { staleWaiver } from './rules/flow/stale-waiver.js';
import { tooTangled } from './rules/flow/too-tangled.js';
import { mixedAndOr } from './rules/text/mixed-and-or.js';
import { nameClash } from './rules/text/name-clash.js';
import { syntax } from './rules/text/syntax.js';
import { unitMissing } from './rules/text/unit-missing.js';
import { unknownName } from './rules/text/unknown-name.js';
import { unknownSheet } from './rules/text/unknown-sheet.js';
import { unknownUnit } from './rules/text/unknown-unit.js';
import { unusedDeclaration } from './rules/text/unused-declaration.js';
import { wrongDimension } from './rules/text/wrong-dimension.js';
import { situationOf } from './situation.js';
import { type Filed, settle } from './waive.js';

export interface CheckOptions {
  /** Spares the run of procedures that mean what they meant before. */
  readonly memory?: Memory;
}

export interface CheckReport {
  /** Of all sheets, in the order of the sheets and of their lines; none twice. */
  readonly findings: readonly Finding[];
  /** What the procedures take on purpose, with their reasons. */
  readonly waived: readonly WaivedFinding[];
  readonly procedures: readonly ProcedureReport[];
}

export interface ProcedureReport {
  readonly procedure: Procedure;
  readonly interpretation: Interpretation;
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
}

/** Checks sheets over every situation that their procedures cover. */
export function checkSheets(sheets: readonly Sheet[], options: CheckOptions = {}): CheckReport {
  const memory = options.memory ?? new Memory();
  const order = sheets.map(({ uri }) => uri);
  const ofSheets: Finding[] = [];
  const procedures: ProcedureReport[] = [];
  for (const sheet of sheets) {
    const drafts = sheetRules.flatMap((rule) => [...rule.look(sheet)].map((draft) => ({ rule, draft })));
    ofSheets.push(...sheet.problems.map(problemFinding));
    ofSheets.push(
      ...drafts.filter(({ draft }) => draft.procedure === undefined).map(({ rule, draft }) => findingOf(rule, draft)),
    );
    for (const procedure of sheet.procedures) {
      const still = drafts.filter(({ draft }) => draft.procedure === procedure);
      procedures.push(checkProcedure(procedure, still, order, memory));
    }
  }
  return {
    findings: inOrder(withoutDuplicates([...ofSheets, ...procedures.flatMap(({ findings }) => findings)]), order),
    waived: procedures.flatMap(({ waived }) => waived),
    procedures,
  };
}

/** A draft and the rule that made it. */
interface Drafted {
  readonly rule: RuleCard;
  readonly draft: Draft;
}

function checkProcedure(
  procedure: Procedure,
  still: readonly Drafted[],
  order: readonly string[],
  memory: Memory,
): ProcedureReport {
  const steps = stepsOf(procedure);
  const { interpretation, filed } = runRules(procedure, steps, memory);
  const all = [
    ...still.map(({ rule, draft }) => ({ finding: findingOf(rule, draft, procedure, steps), step: draft.step })),
    ...filed,
  ];
  const { findings, waived, stale } = settle(all, procedure, steps);
  const known = knownRules(procedure);
  const isKnown = (rule: string): boolean => known.has(rule);
  // Of a procedure that could not be checked nobody knows what its waivers waive.
  const isChecked = interpretation.kind === 'run';
  const staleFindings = stale
    .filter(({ rule }) => isChecked || !known.has(rule))
    .map((waiver) => {
      const meant = isKnown(waiver.rule) ? [] : nearest(waiver.rule, findableBy(waiver, all, findings, steps));
      return findingOf(staleWaiver, staleWaiver.word(waiver, isKnown, meant), procedure);
    });
  return {
    procedure,
    interpretation,
    findings: inOrder(withoutDuplicates([...findings, ...staleFindings]), order),
    waived,
  };
}

/** The rules of what a waiver would cover if it had their name, and no other waiver does. */
function findableBy(
  waiver: Waiver,
  filed: readonly Filed[],
  unwaived: readonly Finding[],
  steps: readonly Step[],
): ReadonlySet<string> {
  const at = steps.findIndex((step) => step.waivers.includes(waiver));
  const left = filed.filter(({ finding, step }) => unwaived.includes(finding) && (at < 0 || step === at));
  return new Set(left.map(({ finding }) => finding.rule));
}

interface Checked {
  readonly interpretation: Interpretation;
  readonly filed: readonly Filed[];
}

/** Interprets the procedure and puts every rule of the flow and of the sheets to it. */
function runRules(procedure: Procedure, steps: readonly Step[], memory: Memory): Checked {
  const { kept, isFresh } = memory.recall(procedure);
  const { interpretation } = kept;
  if (interpretation.kind === 'too-tangled') return tangled(procedure, interpretation.conditions);
  const { run } = interpretation;
  const said = memory.said(kept, procedure);
  if (said !== undefined) return { interpretation, filed: said };
  try {
    const work: Work = { procedure, run, steps, layout: layoutOf(procedure), asked: kept.asked };
    const filed = filedOf(draftsOn(work), work, kept);
    memory.say(kept, procedure, filed);
    return { interpretation, filed };
  } catch (error) {
    if (!(error instanceof Outgrown)) throw error;
    memory.forget(procedure);
    // A run that served many times may have used up what it was given; a fresh one has all of it.
    if (!isFresh) return runRules(procedure, steps, memory);
    return tangled(procedure, error.widest.flatMap((level) => run.situations.axes[level]?.name ?? []).slice(0, 3));
  }
}

function tangled(procedure: Procedure, conditions: readonly string[]): Checked {
  const finding = findingOf(tooTangled, tooTangled.word(procedure, conditions), procedure);
  return { interpretation: { kind: 'too-tangled', conditions }, filed: [{ finding, step: undefined }] };
}

function draftsOn(work: Work): readonly Drafted[] {
  const drafts: Drafted[] = [];
  for (const rule of [...flowRules, ...processRules]) for (const draft of rule.run(work)) drafts.push({ rule, draft });
  for (const rule of work.procedure.vocabulary.rules) {
    const card = { name: rule.name, family: 'sheets', severity: rule.severity, title: rule.label } as const;
    for (const declared of declaredRules) {
      if (declared.pattern !== rule.pattern.kind) continue;
      for (const draft of declared.run(rule, work)) drafts.push({ rule: card, draft });
    }
  }
  return drafts;
}

function filedOf(drafts: readonly Drafted[], work: Work, kept: Kept): readonly Filed[] {
  return drafts.map(({ rule, draft }) => {
    const situation = draft.where === undefined ? undefined : situationOf(draft.where, draft.step, work, kept.told);
    return { finding: findingOf(rule, draft, work.procedure, work.steps, situation), step: draft.step };
  });
}

/** Mends are worked out when they are first asked for: most findings are only looked at, at every keystroke. */
function findingOf(
  rule: RuleCard,
  draft: Draft,
  procedure?: Procedure,
  steps: readonly Step[] = [],
  situation?: Situation,
): Finding {
  const { because, source, advice, related } = draft;
  const step = draft.step === undefined ? undefined : steps[draft.step]?.id;
  const severity: Severity = draft.severity ?? rule.severity;
  let mends: readonly Mend[] | undefined;
  return {
    rule: draft.rule ?? rule.name,
    severity,
    range: draft.range,
    message: draft.message,
    ...(because === undefined ? {} : { because }),
    ...(source === undefined ? {} : { source }),
    ...(advice === undefined ? {} : { advice }),
    ...(procedure === undefined ? {} : { procedure: procedure.name }),
    ...(step === undefined ? {} : { step }),
    ...(situation === undefined ? {} : { situation }),
    ...(related === undefined ? {} : { related }),
    get mends() {
      mends ??= mendsOf(draft);
      return mends;
    },
  };
}

/** None on sheets that ship, which are not for an author to mend, nor where the run has no room left to work them out. */
function mendsOf({ mends }: Draft): readonly Mend[] {
  try {
    return (mends?.() ?? []).filter(({ edits }) => edits.every(({ range }) => !range.uri.startsWith('quarrel:')));
  } catch (error) {
    if (error instanceof Outgrown) return [];
    throw error;
  }
}

/** The names that a waiver in the procedure can speak of. */
function knownRules(procedure: Procedure): ReadonlySet<string> {
  const { rules, acts } = procedure.vocabulary;
  const needs = acts.flatMap((act) => act.needs.flatMap(({ rule }) => (rule === undefined ? [] : [rule])));
  return new Set([...ruleCatalogue.map(({ name }) => name), ...rules.map(({ name }) => name), ...needs]);
}

function problemFinding(problem: Problem): Finding {
  switch (problem.rule) {
    case 'syntax':
      return findingOf(syntax, syntax.word(problem));
    case 'unknown-name':
      return findingOf(unknownName, unknownName.word(problem));
    case 'unknown-sheet':
      return findingOf(unknownSheet, unknownSheet.word(problem));
    case 'name-clash':
      return findingOf(nameClash, nameClash.word(problem));
    case 'mixed-and-or':
      return findingOf(mixedAndOr, mixedAndOr.word(problem));
    case 'unknown-unit':
      return findingOf(unknownUnit, unknownUnit.word(problem));
    case 'wrong-dimension':
      return findingOf(wrongDimension, wrongDimension.word(problem));
    case 'unit-missing':
      return findingOf(unitMissing, unitMissing.word(problem));
    case 'unused-declaration':
      return findingOf(unusedDeclaration, unusedDeclaration.word(problem));
  }
}
