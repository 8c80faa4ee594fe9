import type { Region, Situations } from '@quarrel/analysis';
import { type Comparison, shortLabel, type Test, type Vocabulary } from '@quarrel/model';
import type { Circumstance } from '../checklist.js';

/** A test on conditions in words for people, with the labels of the sheet: `Break type is star or combination`. */
export function wordTest(test: Test, vocabulary: Vocabulary): string {
  switch (test.kind) {
    case 'is': {
      const values = test.values.map((value) => valueLabel(test.subject, value, vocabulary));
      const subject = conditionLabel(test.subject, vocabulary);
      if (!test.negated) return `${subject} is ${listed(values, 'or')}`;
      return values.length === 1
        ? `${subject} is not ${values.join()}`
        : `${subject} is none of ${listed(values, 'and')}`;
    }
    case 'compare':
      return `${conditionLabel(test.subject, vocabulary)} ${comparisonWords[test.comparison]} ${test.quantity.text}`;
    case 'between':
      return `${conditionLabel(test.subject, vocabulary)} is from ${test.low.text} to ${test.high.text}`;
    case 'not':
      return `not (${wordTest(test.test, vocabulary)})`;
    case 'and':
    case 'or': {
      const comma = test.tests.some((part) => part.kind === 'is' && part.values.length > 1) ? ',' : '';
      return test.tests.map((part) => bracketed(part, vocabulary)).join(`${comma} ${test.kind} `);
    }
    case 'always':
      return 'always';
    case 'unknown':
      return 'a condition that could not be read';
  }
}

const comparisonWords: Readonly<Record<Comparison, string>> = {
  below: 'is below',
  'at-most': 'is at most',
  above: 'is above',
  'at-least': 'is at least',
  equal: 'is',
};

function bracketed(test: Test, vocabulary: Vocabulary): string {
  const text = wordTest(test, vocabulary);
  return test.kind === 'and' || test.kind === 'or' ? `(${text})` : text;
}

/** `a, b or c`. */
export function listed(words: readonly string[], last: 'or' | 'and'): string {
  return words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}

export function conditionLabel(name: string, vocabulary: Vocabulary): string {
  const condition = [...vocabulary.observations, ...vocabulary.readings].find((one) => one.name === name);
  return condition?.label ?? name;
}

function valueLabel(observation: string, value: string, vocabulary: Vocabulary): string {
  const values = vocabulary.observations.find((one) => one.name === observation)?.values ?? [];
  const found = values.find((one) => one.name === value);
  return found === undefined ? value : shortLabel(found, values);
}

/**
 * The test without what is settled anyway in `within`: a part that always holds there, a value that cannot be. Means the same
 * as `test` everywhere in `within`.
 */
export function simplified(test: Test, within: Region, situations: Situations): Test {
  const { store } = situations;
  const { holds, fails } = situations.region(test);
  if (store.and(within, fails) === store.nowhere) return { kind: 'always', range: test.range };
  switch (test.kind) {
    case 'is': {
      const possible = test.values.filter((value) => {
        const one: Test = { ...test, values: [value], negated: false };
        return store.and(within, situations.region(one).holds) !== store.nowhere;
      });
      return possible.length === 0 ? test : { ...test, values: possible };
    }
    case 'not':
      return store.and(within, holds) === store.nowhere
        ? test
        : { ...test, test: simplified(test.test, within, situations) };
    case 'and':
    case 'or':
      return joined(test, within, situations);
    case 'compare':
    case 'between':
    case 'always':
    case 'unknown':
      return test;
  }
}

type Joined = Extract<Test, { kind: 'and' | 'or' }>;

/** Each part is looked at where the parts before it leave the matter open. */
function joined(test: Joined, within: Region, situations: Situations): Test {
  const { store } = situations;
  const kept: Test[] = [];
  let open = within;
  for (const part of test.tests) {
    const { holds, fails } = situations.region(part);
    const decided = test.kind === 'and' ? fails : holds;
    if (store.and(open, decided) !== store.nowhere) kept.push(simplified(part, open, situations));
    open = store.and(open, test.kind === 'and' ? holds : fails);
  }
  const only = kept[0];
  return only !== undefined && kept.length === 1 ? only : { ...test, tests: kept.length === 0 ? test.tests : kept };
}

/**
 * When something applies: where `region` holds, as far as `within` leaves that open. For people in the words of one of the
 * `candidates` or of its opposite, where one says it; else in the words of the language.
 */
export function circumstanceOf(
  region: Region,
  within: Region,
  candidates: readonly Test[],
  situations: Situations,
): Circumstance {
  const { vocabulary } = situations.procedure;
  const test = situations.describe(region, within);
  for (const candidate of candidates) {
    const { holds, fails } = situations.region(candidate);
    const says = (part: Region): boolean => situations.store.and(part, within) === region;
    const found = says(holds) ? candidate : says(fails) ? opposite(candidate, vocabulary) : undefined;
    if (found !== undefined) return { test, text: wordTest(simplified(found, within, situations), vocabulary) };
  }
  return { test, text: test };
}

const opposites: Readonly<Record<Comparison, Comparison | undefined>> = {
  below: 'at-least',
  'at-most': 'above',
  above: 'at-most',
  'at-least': 'below',
  equal: undefined,
};

/** The test that holds where this one fails, without a `not` where it can be said without. */
function opposite(test: Test, vocabulary: Vocabulary): Test {
  if (test.kind === 'not') return test.test;
  if (test.kind === 'compare') {
    const comparison = opposites[test.comparison];
    if (comparison !== undefined) return { ...test, comparison };
  }
  if (test.kind === 'is' && test.negated) return { ...test, negated: false };
  if (test.kind === 'is') {
    const declared = vocabulary.observations.find((one) => one.name === test.subject)?.values ?? [];
    const others = declared.map((value) => value.name).filter((value) => !test.values.includes(value));
    if (others.length > 0) return { ...test, values: others };
  }
  return { kind: 'not', test, range: test.range };
}
