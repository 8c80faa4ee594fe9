import { parseTest } from '@quarrel/language';
import type { Comparison, Test, Vocabulary } from '@quarrel/model';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { procedureOf, said } from './reading.js';

const procedure = await procedureOf(`
observation break: bullseye, half-moon, star, combination
observation zone: driver-view, elsewhere
reading glass-temperature: -20 °C to 60 °C
reading leg-length: 0 mm to 150 mm
state cavity: empty, filled
procedure p { step "x" { observe break, zone; read glass-temperature; read leg-length; check "x" confirms cavity filled } }`);
const vocabulary: Vocabulary = procedure.vocabulary;

/** A test without its places and its values without their SI numbers: what was written. */
function bare(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (key, part) => (key === 'range' || key === 'si' ? undefined : part)));
}

describe('reading a test back', () => {
  test.each([
    ['break is star', { kind: 'is', subject: 'break', values: ['star'], negated: false }],
    ['glass-temperature is 8 °C', { kind: 'compare', comparison: 'equal', quantity: { si: 281.15, text: '8 °C' } }],
    ['always', { kind: 'always' }],
    [
      '(break is star and glass-temperature below 10 °C) or zone is elsewhere',
      { kind: 'or', tests: [{ kind: 'and', tests: [{ kind: 'is' }, { kind: 'compare' }] }, { kind: 'is' }] },
    ],
    ['  leg-length from 10 to 20 mm  ', { kind: 'between', low: { text: '10 mm' }, high: { text: '20 mm' } }],
  ])('%s', (text, expected) => {
    const { test: read, problems } = parseTest(text, vocabulary);
    expect(problems.map(said)).toEqual([]);
    expect(read).toMatchObject(expected);
  });

  test.each([
    ['', '1:1 syntax: Expected a test, such as `break is star` here, but the sheet ends.'],
    [
      'break',
      '1:1 syntax: Expected `is`, `below`, `above`, `at most`, `at least` or `from` behind `break`, but the sheet ends.',
    ],
    ['break is', '1:7 syntax: Expected a value behind `is`, but the sheet ends.'],
    ['break is star zone', '1:15 syntax: Expected `and`, `or` or the end here, but found `zone`.'],
    ['brake is star', '1:1 unknown-name: observation or reading brake -> break'],
    ['break is stra', '1:10 unknown-name: value of break stra -> star'],
    ['cavity is filled', '1:1 unknown-name: observation or reading cavity -> '],
    ['break below 10 °C', '1:1 unknown-name: reading break -> '],
    ['glass-temperature is star', '1:1 unknown-name: observation glass-temperature -> '],
    ['glass-temperature is 8', '1:22 unit-missing: 8 of glass-temperature: temperature'],
    ['glass-temperature is 8 mm', '1:22 wrong-dimension: 8 mm is length, glass-temperature is temperature'],
    [
      'break is star and zone is elsewhere or zone is driver-view',
      '1:1 mixed-and-or: break is star and zone is elsewhere or zone is driver-view',
    ],
  ])('%s is refused', (text, problem) => {
    const { test: read, problems } = parseTest(text, vocabulary);
    expect(problems.map(said)).toEqual([problem]);
    if (!problem.includes('mixed')) expect(read.kind).toBe('unknown');
  });

  const comparisons: Readonly<Record<Comparison, string>> = {
    below: 'below',
    'at-most': 'at most',
    above: 'above',
    'at-least': 'at least',
    equal: 'is',
  };
  const range = { uri: '', start: { line: 0, column: 0 }, end: { line: 0, column: 0 } };
  const temperature = fc.integer({ min: -20, max: 60 }).map((value) => ({
    dimension: 'temperature' as const,
    si: 0,
    text: `${value} °C`,
    unit: '°C',
    range,
  }));
  const one: fc.Arbitrary<Test> = fc.oneof(
    fc.record({
      kind: fc.constant('is' as const),
      subject: fc.constant('break'),
      values: fc.subarray(['bullseye', 'half-moon', 'star', 'combination'], { minLength: 1 }),
      negated: fc.boolean(),
      range: fc.constant(range),
    }),
    fc.record({
      kind: fc.constant('compare' as const),
      subject: fc.constant('glass-temperature'),
      comparison: fc.constantFrom<Comparison>('below', 'at-most', 'above', 'at-least', 'equal'),
      quantity: temperature,
      range: fc.constant(range),
    }),
    fc.record({
      kind: fc.constant('between' as const),
      subject: fc.constant('glass-temperature'),
      low: temperature,
      high: temperature,
      range: fc.constant(range),
    }),
    fc.constant({ kind: 'always' as const, range }),
  );
  const any = fc.letrec<{ test: Test }>((tie) => ({
    test: fc.oneof(
      { maxDepth: 3 },
      one,
      fc.record({ kind: fc.constant('not' as const), test: tie('test'), range: fc.constant(range) }),
      fc.record({
        kind: fc.constantFrom('and' as const, 'or' as const),
        tests: fc.array(tie('test'), { minLength: 2, maxLength: 3 }),
        range: fc.constant(range),
      }),
    ),
  })).test;

  /** A test in the language's words, with brackets round whatever is more than one comparison. */
  const words = (asked: Test): string => {
    switch (asked.kind) {
      case 'is':
        return `${asked.subject} is ${asked.negated ? 'not ' : ''}${asked.values.join(', ')}`;
      case 'compare':
        return `${asked.subject} ${comparisons[asked.comparison]} ${asked.quantity.text}`;
      case 'between':
        return `${asked.subject} from ${asked.low.text} to ${asked.high.text}`;
      case 'not':
        return `not (${words(asked.test)})`;
      case 'and':
      case 'or':
        return asked.tests
          .map((part) => (part.kind === 'and' || part.kind === 'or' ? `(${words(part)})` : words(part)))
          .join(` ${asked.kind} `);
      case 'always':
      case 'unknown':
        return asked.kind;
    }
  };

  test('every test comes back as it was', () => {
    fc.assert(
      fc.property(any, (asked) => {
        const { test: read, problems } = parseTest(words(asked), vocabulary);
        expect(problems).toEqual([]);
        expect(bare(read)).toEqual(bare(asked));
      }),
      { numRuns: 300 },
    );
  });
});
