import type { Situation } from '@quarrel/checks';
import { parseTest } from '@quarrel/language';
import {
  type Block,
  type Condition,
  flowIn,
  formatSi,
  type Position,
  type Procedure,
  type Scenario,
  type SourceRange,
  subjectsOf,
  type Test,
} from '@quarrel/model';

/** When it happens, in the words of the language, one line for each way. */
export function regionLines({ region, lines }: Situation): readonly string[] {
  if (region === 'always' || lines.length === 0) return ['in every situation that reaches it'];
  return lines.map((line, index) => (index === 0 ? line : `or ${line}`));
}

/**
 * A typical situation in the language's words. Of the conditions it tells those that the region speaks of, and those by which the
 * work came this way; the others make no difference.
 */
export function typicalWords(situation: Situation, procedure: Procedure, place: SourceRange): string {
  const { test } = parseTest(situation.region, procedure.vocabulary);
  const telling = new Set([...subjectsOf(test), ...turns(situation, procedure, place).flatMap(subjectsOf)]);
  return conditionsOf(procedure)
    .filter(({ name }) => telling.has(name))
    .flatMap((condition) => valueWords(condition, situation.witness))
    .join(', ');
}

/** What was asked wherever the work turned into a case with a step on the way, or with the place itself. */
function turns({ path }: Situation, procedure: Procedure, place: SourceRange): readonly Test[] {
  const onTheWay = new Set(path.map(({ step }) => step));
  const leadsOn = (block: Block): boolean =>
    [...flowIn(block)].some((part) => part.kind === 'step' && (onTheWay.has(part.id) || holds(part.whole, place)));
  return [...flowIn(procedure.body)].flatMap((part) => {
    if (part.kind !== 'when') return [];
    const taken = part.cases.filter(({ body }) => leadsOn(body));
    // `otherwise` is for those whom every case let pass.
    return (taken.length === 0 && leadsOn(part.otherwise ?? []) ? part.cases : taken).map(({ test }) => test);
  });
}

function holds(whole: SourceRange | undefined, { uri, start }: SourceRange): boolean {
  return whole !== undefined && whole.uri === uri && !isBefore(start, whole.start) && isBefore(start, whole.end);
}

function isBefore(a: Position, b: Position): boolean {
  return a.line < b.line || (a.line === b.line && a.column < b.column);
}

/** Every condition a procedure can speak of: observations, then readings. */
export function conditionsOf({ vocabulary }: Procedure): readonly Condition[] {
  return [...vocabulary.observations, ...vocabulary.readings];
}

function valueWords(condition: Condition, scenario: Scenario): readonly string[] {
  const value = scenario[condition.name];
  if (value === undefined) return [];
  const words =
    typeof value === 'string' || condition.kind === 'observation' ? value : formatSi(value, condition.low.unit);
  return [`${condition.name} is ${words}`];
}

const mostSteps = 8;

/** The steps on the way, by name; the middle of a long way is left out and counted. */
export function pathWords({ path }: Situation): string {
  const steps = path.map(({ step }) => step);
  if (steps.length <= mostSteps) return steps.join(' → ');
  const kept = mostSteps / 2 - 1;
  const left = steps.length - 2 * kept;
  return [...steps.slice(0, kept), `(${left} more)`, ...steps.slice(-kept)].join(' → ');
}
