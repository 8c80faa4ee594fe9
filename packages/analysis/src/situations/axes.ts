import type { Act, Condition, Procedure, Test } from '@quarrel/model';
import { flowIn, subjectsOf } from '@quarrel/model';
import { type Cell, type Cut, cellsOf, cutsOfComparison, cutsOfSpan } from './cells.js';
import { arrange, type Bond } from './order.js';

/** One condition as an axis: its values, or the cells of its range. */
export type Axis =
  | { readonly kind: 'observation'; readonly name: string; readonly values: readonly string[] }
  | { readonly kind: 'reading'; readonly name: string; readonly cells: readonly Cell[] };

export function sizeOf(axis: Axis): number {
  return axis.kind === 'observation' ? axis.values.length : axis.cells.length;
}

/**
 * The axes of a procedure, in an order that keeps together what is tested together. `further` are tests from outside it
 * that will be asked of its situations.
 */
export function axesOf(procedure: Procedure, further: readonly Test[]): readonly Axis[] {
  const { observations, readings } = procedure.vocabulary;
  const conditions: readonly Condition[] = [...observations, ...readings].sort(byPlace(procedure));
  const tests = testsOf(procedure, further);
  const cuts = cutsIn(procedure, tests);
  const names = conditions.map((condition) => condition.name);
  const order = arrange(names, bondsIn(procedure, tests, new Set(names)));
  const byName = new Map(conditions.map((condition) => [condition.name, condition]));
  return order.flatMap((name) => {
    const condition = byName.get(name);
    return condition === undefined ? [] : [axisOf(condition, cuts.get(name) ?? [])];
  });
}

function axisOf(condition: Condition, cuts: readonly Cut[]): Axis {
  return condition.kind === 'observation'
    ? { kind: 'observation', name: condition.name, values: condition.values.map((value) => value.name) }
    : { kind: 'reading', name: condition.name, cells: cellsOf(condition, cuts) };
}

/** Observations and readings as they are declared, so that regions read in the sheet's own order. */
function byPlace(procedure: Procedure): (a: Condition, b: Condition) => number {
  const sheets = new Map<string, number>();
  for (const one of [...procedure.vocabulary.observations, ...procedure.vocabulary.readings]) {
    if (!sheets.has(one.range.uri)) sheets.set(one.range.uri, sheets.size);
  }
  const place = (one: Condition): readonly number[] => [
    sheets.get(one.range.uri) ?? 0,
    one.range.start.line,
    one.range.start.column,
  ];
  return (a, b) => {
    const [x, y] = [place(a), place(b)];
    return x.map((value, index) => value - (y[index] ?? 0)).find((difference) => difference !== 0) ?? 0;
  };
}

/** Every test that is asked in the course of a procedure, or of it. */
function testsOf(procedure: Procedure, further: readonly Test[]): readonly Test[] {
  const { vocabulary } = procedure;
  const limits = new Set(procedure.within.map((use) => use.name));
  const flow = [...flowIn(procedure.body)];
  return [
    ...procedure.covers,
    ...procedure.choices.flatMap((choice) => choice.cases.map((one) => one.test)),
    ...flow.flatMap((part) => (part.kind === 'when' ? part.cases.map((one) => one.test) : [])),
    ...actsUsed(procedure).flatMap((act) => act.needs.map((need) => need.test)),
    ...vocabulary.rules.flatMap((rule) => [
      ...(rule.when === undefined ? [] : [rule.when]),
      ...(rule.pattern.kind === 'final' ? [rule.pattern.test] : []),
    ]),
    ...vocabulary.limits
      .filter((profile) => limits.has(profile.name))
      .flatMap((profile) =>
        profile.allowances.flatMap((one) => (one.when === undefined ? [one.test] : [one.test, one.when])),
      ),
    ...further,
  ];
}

/** The acts that some step does. */
export function actsUsed(procedure: Procedure): readonly Act[] {
  const used = new Set<string>();
  for (const part of flowIn(procedure.body)) {
    if (part.kind !== 'step') continue;
    for (const effect of part.effects) if (effect.kind === 'act') used.add(effect.act);
  }
  return procedure.vocabulary.acts.filter((act) => used.has(act.name));
}

function cutsIn(procedure: Procedure, tests: readonly Test[]): ReadonlyMap<string, readonly Cut[]> {
  const cuts = new Map<string, Cut[]>();
  const add = (reading: string, more: readonly Cut[]): void => {
    const known = cuts.get(reading);
    if (known === undefined) cuts.set(reading, [...more]);
    else known.push(...more);
  };
  for (const test of tests.flatMap(partsOf)) {
    if (test.kind === 'compare') add(test.subject, cutsOfComparison(test.comparison, test.quantity));
    if (test.kind === 'between') add(test.subject, cutsOfSpan({ least: test.low, most: test.high }));
  }
  for (const part of flowIn(procedure.body)) {
    if (part.kind !== 'step') continue;
    for (const effect of part.effects) {
      if (effect.kind === 'read' && effect.accept !== undefined) add(effect.condition, cutsOfSpan(effect.accept.span));
    }
  }
  return cuts;
}

/** A test and every test inside it. */
function partsOf(test: Test): readonly Test[] {
  switch (test.kind) {
    case 'not':
      return [test, ...partsOf(test.test)];
    case 'and':
    case 'or':
      return [test, ...test.tests.flatMap(partsOf)];
    default:
      return [test];
  }
}

/** Conditions asked about together: within one test or a part of it, and by a `when` inside another. */
function bondsIn(procedure: Procedure, tests: readonly Test[], conditions: ReadonlySet<string>): readonly Bond[] {
  const together = (names: readonly string[]): Bond => [...new Set(names.filter((name) => conditions.has(name)))];
  const bonds = tests.flatMap(partsOf).map((test) => together(subjectsOf(test)));
  const nested = (part: Procedure['body'], around: readonly string[]): void => {
    for (const one of part) {
      if (one.kind === 'when') {
        for (const { test, body } of one.cases) {
          const subjects = subjectsOf(test);
          bonds.push(together([...around.slice(-3), ...subjects]));
          nested(body, [...around, ...subjects]);
        }
        nested(one.otherwise ?? [], [...around, ...one.cases.flatMap(({ test }) => subjectsOf(test))]);
      } else if (one.kind === 'step') {
        for (const effect of one.effects) if (effect.kind === 'meanwhile') nested(effect.body, around);
      } else if (one.kind !== 'stop') nested(one.body, around);
    }
  };
  nested(procedure.body, []);
  return bonds.filter((bond) => bond.length > 1);
}
