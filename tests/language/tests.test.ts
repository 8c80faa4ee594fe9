import type { Test } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { first, procedureOf, readOne, said } from './reading.js';

const head = `
observation break: bullseye, half-moon, star, combination
observation zone: driver-view, elsewhere
reading glass-temperature: -20 °C to 60 °C
`;

/** A test as it is asked in `covers`, in short: the same words with every bracket that counts. */
async function covered(text: string): Promise<string> {
  const procedure = await procedureOf(
    `${head} procedure p { covers { ${text} } step "Look" { observe break, zone; read glass-temperature } }`,
  );
  return procedure.covers.map(short).join(' ; ');
}

function short(one: Test): string {
  switch (one.kind) {
    case 'is':
      return `${one.subject}${one.negated ? ' not' : ''} ${one.values.join('|')}`;
    case 'compare':
      return `${one.subject} ${one.comparison} ${one.quantity.text}`;
    case 'between':
      return `${one.subject} ${one.low.text}..${one.high.text}`;
    case 'not':
      return `not(${short(one.test)})`;
    case 'and':
    case 'or':
      return `${one.kind}(${one.tests.map(short).join(', ')})`;
    case 'always':
    case 'unknown':
      return one.kind;
  }
}

describe('tests on conditions', () => {
  test.each([
    ['break is star', 'break star'],
    ['break is star, combination', 'break star|combination'],
    ['break is not bullseye, half-moon', 'break not bullseye|half-moon'],
    ['break is star, star', 'break star'],
    ['glass-temperature below 10 °C', 'glass-temperature below 10 °C'],
    ['glass-temperature above 10 °C', 'glass-temperature above 10 °C'],
    ['glass-temperature at most 10 °C', 'glass-temperature at-most 10 °C'],
    ['glass-temperature at least 10 °C', 'glass-temperature at-least 10 °C'],
    ['glass-temperature < 10 °C', 'glass-temperature below 10 °C'],
    ['glass-temperature > 10 °C', 'glass-temperature above 10 °C'],
    ['glass-temperature <= 10 °C', 'glass-temperature at-most 10 °C'],
    ['glass-temperature >= −5°C', 'glass-temperature at-least -5 °C'],
    ['glass-temperature is 8 °C', 'glass-temperature equal 8 °C'],
    ['glass-temperature is not 8 °C', 'not(glass-temperature equal 8 °C)'],
    ['glass-temperature from 10 °C to 20 °C', 'glass-temperature 10 °C..20 °C'],
    ['glass-temperature from 8 to 10 °C', 'glass-temperature 8 °C..10 °C'],
    ['always', 'always'],
    ['not break is star', 'not(break star)'],
    ['not (break is star and glass-temperature below 10 °C)', 'not(and(break star, glass-temperature below 10 °C))'],
    ['not break is star and zone is elsewhere', 'and(not(break star), zone elsewhere)'],
    [
      '(break is star, combination and glass-temperature below 20 °C) or zone is driver-view',
      'or(and(break star|combination, glass-temperature below 20 °C), zone driver-view)',
    ],
    ['break is star or break is bullseye or zone is elsewhere', 'or(break star, break bullseye, zone elsewhere)'],
    ['break is star; zone is elsewhere', 'break star ; zone elsewhere'],
    [
      'break is star\n zone is elsewhere\n glass-temperature above 5 °C',
      'break star ; zone elsewhere ; glass-temperature above 5 °C',
    ],
  ])('%s', async (text, expected) => {
    expect(await covered(text)).toBe(expected);
  });

  test('"and" beside "or" is read as "and" first, and reported with what could be bracketed', async () => {
    const sheet = await readOne(
      `${head}procedure p {\n  step "Look" { observe break, zone; read glass-temperature }\n  when zone is elsewhere or break is star and zone is driver-view { }\n}`,
    );
    expect(sheet.problems).toMatchObject([
      {
        rule: 'mixed-and-or',
        text: 'zone is elsewhere or break is star and zone is driver-view',
        range: { start: { line: 6, column: 7 }, end: { line: 6, column: 65 } },
        andParts: [{ start: { line: 6, column: 28 }, end: { line: 6, column: 65 } }],
        orParts: [{ start: { line: 6, column: 7 }, end: { line: 6, column: 41 } }],
      },
    ]);
    const when = first(sheet.procedures).body[1];
    expect(when?.kind === 'when' && when.cases.map(({ test: asked }) => short(asked))).toEqual([
      'or(zone elsewhere, and(break star, zone driver-view))',
    ]);
  });

  test.each([
    ['break below 10 °C', ['5:24 unknown-name: reading break -> '], 'unknown'],
    ['glass-temperature is star', ['5:24 unknown-name: observation glass-temperature -> '], 'unknown'],
    ['brake is star', ['5:24 unknown-name: observation or reading brake -> break'], 'unknown'],
    ['break is stra', ['5:33 unknown-name: value of break stra -> star'], 'unknown'],
    ['break is star, elsewhere', ['5:39 unknown-name: value of break elsewhere -> '], 'unknown'],
    ['glass-temperature below 10', ['5:48 unit-missing: 10 of glass-temperature: temperature'], 'unknown'],
    [
      'glass-temperature below 10 mm',
      ['5:48 wrong-dimension: 10 mm is length, glass-temperature is temperature'],
      'unknown',
    ],
    ['glass-temperature below 10 C', ['5:51 unknown-unit: C -> °C'], 'unknown'],
    ['glass-temperature from 5 to 10', ['5:52 unit-missing: 10 of glass-temperature: temperature'], 'unknown'],
    ['not break is stra', ['5:37 unknown-name: value of break stra -> star'], 'not(unknown)'],
    [
      'break is stra and zone is elsewhere',
      ['5:33 unknown-name: value of break stra -> star'],
      'and(unknown, zone elsewhere)',
    ],
  ])('%s is unknown and reported once', async (text, problems, lowered) => {
    const sheet = await readOne(
      `${head}procedure p { covers { ${text} } step "Look" { observe break, zone; read glass-temperature } }`,
    );
    expect(sheet.problems.map(said)).toEqual(problems);
    expect(first(sheet.procedures).covers.map(short)).toEqual([lowered]);
  });

  test('states are asked about in what acts need and in what rules ask of the end, nowhere else', async () => {
    const sheet = await readOne(`${head}state cavity: empty, filled
act cure { needs cavity is filled and not (break is star) }
rule end { at the end cavity is filled when cavity is empty }
procedure p {
  covers { cavity is filled }
  when cavity is filled { step "Cure" { do cure; observe break, zone; read glass-temperature } }
}`);
    expect(sheet.problems.map(said)).toEqual([
      '7:45 unknown-name: observation or reading cavity -> ',
      '9:12 unknown-name: observation or reading cavity -> ',
      '10:8 unknown-name: observation or reading cavity -> ',
    ]);
    expect(first(sheet.acts).needs.map((need) => short(need.test))).toEqual(['and(cavity filled, not(break star))']);
  });
});
