import type { Finding, Mend, PathStep, Related, Situation } from '@quarrel/checks';
import { type Condition, fromSi, type Procedure, type Scenario, type SourceRange, unitNamed } from '@quarrel/model';
import type { Report, SilentIn } from './report.js';
import { conditionsOf } from './situation.js';
import { procedureOf, type Surroundings } from './text.js';
import { countOf } from './whole.js';

/**
 * A report for programs, as `docs/schemas/findings.schema.json` describes it: lines and columns count from 1, units are UCUM's.
 */
export function reportJson(report: Report, surroundings: Surroundings): string {
  const { findings, waived, silences, procedures, sheets } = report;
  const document = {
    version: 1,
    findings: findings.map((finding) => findingOf(finding, surroundings)),
    waived: waived.map(({ finding, because }) => ({ ...findingOf(finding, surroundings), waivedBecause: because })),
    ...(silences === undefined ? {} : { silences: silences.map((one) => silenceOf(one, surroundings)) }),
    summary: {
      errors: countOf(findings, 'error'),
      warnings: countOf(findings, 'warning'),
      infos: countOf(findings, 'info'),
      waived: waived.length,
      procedures: procedures.length,
      sheets,
    },
  };
  return `${JSON.stringify(document, undefined, 2)}\n`;
}

function silenceOf({ procedure, silent }: SilentIn, surroundings: Surroundings): object {
  const { rules, message, wakes, range } = silent;
  const place = range === undefined ? { file: null, range: null } : placed(range, surroundings);
  return { procedure: procedure.name, rules, message, wakes, ...place };
}

function findingOf(finding: Finding, surroundings: Surroundings): object {
  const { rule, severity, range, message, procedure, situation, source, because, advice, related, mends } = finding;
  return {
    rule,
    severity,
    ...placed(range, surroundings),
    message,
    procedure: procedure ?? null,
    ...situationOf(situation, procedureOf(finding, surroundings.procedures), surroundings),
    source: source ?? null,
    because: because ?? null,
    advice: advice ?? null,
    related: (related ?? []).map((one) => relatedOf(one, surroundings)),
    mend: mends[0] === undefined ? null : mendOf(mends[0], surroundings),
  };
}

function placed({ uri, start, end }: SourceRange, { nameOf }: Surroundings): object {
  return {
    file: nameOf(uri),
    range: {
      start: { line: start.line + 1, column: start.column + 1 },
      end: { line: end.line + 1, column: end.column + 1 },
    },
  };
}

function situationOf(
  situation: Situation | undefined,
  procedure: Procedure | undefined,
  surroundings: Surroundings,
): object {
  if (situation === undefined || procedure === undefined) return { region: null, witness: null, path: [] };
  return {
    region: situation.region,
    witness: witnessOf(situation.witness, conditionsOf(procedure)),
    path: situation.path.map((step) => pathStep(step, surroundings)),
  };
}

function witnessOf(witness: Scenario, conditions: readonly Condition[]): object {
  return Object.fromEntries(
    conditions.flatMap((condition) => {
      const value = witness[condition.name];
      return value === undefined ? [] : [[condition.name, inUcum(condition, value)]];
    }),
  );
}

/** An observation's value by its name; a reading's as a UCUM quantity in the unit in which the sheet declares it: `20 Cel`. */
function inUcum(condition: Condition, value: string | number): string {
  if (condition.kind === 'observation' || typeof value === 'string') return String(value);
  const unit = unitNamed(condition.low.unit);
  return unit === undefined ? String(value) : `${fromSi(value, unit)} ${unit.ucum}`;
}

function pathStep({ step, text, range }: PathStep, { nameOf }: Surroundings): object {
  return { step, file: nameOf(range.uri), line: range.start.line + 1, text };
}

function relatedOf({ message, range }: Related, surroundings: Surroundings): object {
  return { ...placed(range, surroundings), message };
}

function mendOf({ title, edits }: Mend, surroundings: Surroundings): object {
  return { title, edits: edits.map(({ range, text }) => ({ ...placed(range, surroundings), text })) };
}
