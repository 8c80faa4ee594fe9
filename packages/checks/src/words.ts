import type { Comparison, Dimension, Pattern, Test } from '@quarrel/model';

/** `a, b or c`. */
export function anyOf(names: readonly string[]): string {
  return joined(names, 'or');
}

/** `a, b and c`. */
export function allOf(names: readonly string[]): string {
  return joined(names, 'and');
}

function joined(names: readonly string[], word: string): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} ${word} ${last}`;
}

/** `a time`, `an irradiance`. */
export function withArticle(noun: string): string {
  return `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

/** A kind of quantity as people say it: `a surface tension`. */
export function dimensionInWords(dimension: Dimension): string {
  switch (dimension) {
    case 'drops':
      return 'a number of drops';
    case 'pieces':
      return 'a number of pieces';
    case 'surface-tension':
      return 'a surface tension';
    default:
      return withArticle(dimension);
  }
}

const comparisons: Readonly<Record<Comparison, string>> = {
  below: 'below',
  'at-most': 'at most',
  above: 'above',
  'at-least': 'at least',
  equal: 'is',
};

/** A test in the language's own words. */
export function testInWords(test: Test): string {
  switch (test.kind) {
    case 'is':
      return `${test.subject} is ${test.negated ? 'not ' : ''}${test.values.join(', ')}`;
    case 'compare':
      return `${test.subject} ${comparisons[test.comparison]} ${test.quantity.text}`;
    case 'between':
      return `${test.subject} from ${test.low.text} to ${test.high.text}`;
    case 'not':
      return `not ${bracketed(test.test)}`;
    case 'and':
    case 'or':
      return test.tests.map(bracketed).join(` ${test.kind} `);
    case 'always':
      return 'always';
    case 'unknown':
      return 'something that could not be read';
  }
}

function bracketed(test: Test): string {
  return test.kind === 'and' || test.kind === 'or' ? `(${testInWords(test)})` : testInWords(test);
}

/** What a rule asks, in the language's own words. */
export function patternInWords(pattern: Pattern): string {
  switch (pattern.kind) {
    case 'precedence':
      return `${pattern.first} comes before ${pattern.later}`;
    case 'response': {
      const within = pattern.within === undefined ? '' : ` within ${pattern.within.text}`;
      return `after ${pattern.trigger}, ${pattern.response} follows${within}`;
    }
    case 'absence':
      return `no ${pattern.act} after ${pattern.after}`;
    case 'final':
      return `at the end ${testInWords(pattern.test)}`;
    case 'hold': {
      const bound = pattern.bound === 'at-least' ? 'at least' : 'at most';
      return `hold of ${pattern.act} ${bound} ${pattern.quantity.text}`;
    }
  }
}
