import { axesOf, interpret, type Region, Situations } from '@quarrel/analysis';
import { type Scenario, settle, type Test } from '@quarrel/model';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { all, any, between, compare, is, isNot, not, observation, procedure, reading, when } from '../build.js';
import { entangledSheet, procedureOf } from '../speed/sheets.js';

const vocabulary = {
  observations: [
    observation('break', 'Break type', {
      bullseye: 'Bullseye',
      'half-moon': 'Half-moon',
      star: 'Star',
      combination: 'Combination',
    }),
    observation('zone', 'Zone', { 'driver-view': 'Driver view', elsewhere: 'Elsewhere' }),
  ],
  readings: [reading('temperature', 'Glass temperature', -20, 60, '°C')],
};

function situationsFor(
  tests: readonly Test[],
  covers: readonly Test[] = [],
): { situations: Situations; covered: Region } {
  const made = procedure('p', 'P', [when(tests.map((one) => [one, []]))], { vocabulary, covers: [...covers] });
  const situations = new Situations(made, axesOf(made, []));
  const covered = covers.reduce(
    (region, one) => situations.store.and(region, situations.region(one).holds),
    situations.store.everywhere,
  );
  return { situations, covered };
}

/** A region in words, given the test that says it and what is covered. */
function said(one: Test, covers: readonly Test[] = [], others: readonly Test[] = []): string {
  const { situations, covered } = situationsFor([one, ...others], covers);
  return situations.describe(situations.region(one).holds, covered);
}

describe('a region is said in as few words as can be found', () => {
  const from5to35 = between('temperature', 5, 35, '°C');
  test.each<[string, Test, readonly Test[], string]>([
    ['a value', is('break', 'star'), [], 'break is star'],
    ['several values', not(is('break', 'star')), [], 'break is bullseye, half-moon, combination'],
    ['everything covered', any(is('zone', 'elsewhere'), is('zone', 'driver-view')), [], 'always'],
    [
      'what is covered need not be said',
      compare('temperature', 'below', 10, '°C'),
      [from5to35],
      'temperature below 10 °C',
    ],
    ['both ends included', between('temperature', 10, 20, '°C'), [from5to35], 'temperature from 10 °C to 20 °C'],
    [
      'both ends open',
      all(compare('temperature', 'above', 10, '°C'), compare('temperature', 'below', 20, '°C')),
      [from5to35],
      'temperature above 10 °C and temperature below 20 °C',
    ],
    [
      'one end open',
      all(compare('temperature', 'at-least', 10, '°C'), compare('temperature', 'below', 20, '°C')),
      [from5to35],
      'temperature at least 10 °C and temperature below 20 °C',
    ],
    [
      'a single point between two bands',
      not(any(compare('temperature', 'below', 10, '°C'), compare('temperature', 'above', 10, '°C'))),
      [from5to35],
      'temperature is 10 °C',
    ],
    [
      'two conditions',
      all(is('break', 'star'), compare('temperature', 'below', 10, '°C')),
      [],
      'break is star and temperature below 10 °C',
    ],
    [
      'all but one corner',
      not(all(is('break', 'star'), compare('temperature', 'below', 10, '°C'), is('zone', 'elsewhere'))),
      [],
      'not (break is star and zone is elsewhere and temperature below 10 °C)',
    ],
    [
      'two ways',
      any(all(is('break', 'star'), compare('temperature', 'below', 10, '°C')), is('zone', 'driver-view')),
      [],
      'zone is driver-view or (break is star and temperature below 10 °C)',
    ],
    [
      'a value that is not covered is not mentioned',
      isNot('break', 'star'),
      [isNot('break', 'combination')],
      'break is bullseye, half-moon',
    ],
  ])('%s', (_, one, covers, words) => {
    expect(said(one, covers).split(' or ').sort()).toEqual(words.split(' or ').sort());
  });

  test('twenty pairs held apart make twenty short tests, not a million', () => {
    const names = Array.from({ length: 40 }, (_, index) => `c${index}`);
    const pairs = names.slice(0, 20).map((name, index) => all(is(name, 'yes'), is(`c${index + 20}`, 'yes')));
    const made = procedure('p', 'P', [when(pairs.map((one) => [one, []]))], {
      vocabulary: { observations: names.map((name) => observation(name, name, { yes: 'Yes', no: 'No' })) },
    });
    const situations = new Situations(made, axesOf(made, []));
    const some = situations.region(any(...pairs)).holds;
    expect(situations.lines(some, situations.store.everywhere)).toHaveLength(20);
    const none = situations.describe(situations.store.not(some), situations.store.everywhere);
    expect(none.split('not (')).toHaveLength(21);
  });
});

describe('a typical situation', () => {
  test.each<[string, Test, readonly Test[], Scenario]>([
    [
      'the middle of what is covered',
      is('break', 'star'),
      [between('temperature', 5, 35, '°C')],
      { break: 'star', zone: 'driver-view', temperature: 293.15 },
    ],
    [
      'the middle of a band',
      compare('temperature', 'below', 10, '°C'),
      [between('temperature', 5, 35, '°C')],
      { break: 'bullseye', zone: 'driver-view', temperature: 281.15 },
    ],
    [
      'the one point left',
      compare('temperature', 'equal', 10, '°C'),
      [],
      { break: 'bullseye', zone: 'driver-view', temperature: 283.15 },
    ],
  ])('%s', (_, one, covers, expected) => {
    const { situations, covered } = situationsFor([one], covers);
    expect(situations.typical(situations.store.and(covered, situations.region(one).holds))).toEqual(expected);
  });

  test('there is none in an empty region', () => {
    const { situations } = situationsFor([is('break', 'star')]);
    expect(situations.typical(situations.store.nowhere)).toBeUndefined();
  });
});

describe('units and ends', () => {
  test('values written in different units cut at one place', () => {
    const { situations } = situationsFor([
      compare('temperature', 'below', 50, '°F'),
      compare('temperature', 'below', 10, '°C'),
    ]);
    const axis = situations.axes.find((one) => one.name === 'temperature');
    expect(axis?.kind === 'reading' ? axis.cells : []).toHaveLength(2);
  });

  test('cuts outside the range, and at its ends, leave no empty cell', () => {
    const edge = [
      compare('temperature', 'at-least', -20, '°C'),
      compare('temperature', 'below', -20, '°C'),
      compare('temperature', 'at-most', 60, '°C'),
      compare('temperature', 'above', 60, '°C'),
      compare('temperature', 'below', -40, '°C'),
      compare('temperature', 'above', 99, '°C'),
    ];
    const { situations } = situationsFor(edge);
    const regions = edge.map((one) => situations.region(one).holds);
    const { everywhere, nowhere } = situations.store;
    expect(regions).toEqual([everywhere, nowhere, everywhere, nowhere, nowhere, nowhere]);
  });

  test('the point on a threshold belongs to at most and not to below', () => {
    const tests = [compare('temperature', 'below', 10, '°C'), compare('temperature', 'at-most', 10, '°C')];
    const { situations } = situationsFor(tests);
    const at10 = { break: 'star', zone: 'elsewhere', temperature: 283.15 };
    expect(tests.map((one) => situations.holdsIn(situations.region(one).holds, at10))).toEqual([false, true]);
  });
});

test('tests that are asked together stand together', () => {
  const names = Array.from({ length: 12 }, (_, index) => `c${index}`);
  const made = procedure(
    'p',
    'P',
    names.slice(0, 6).map((name, index) => when([[all(is(name, 'yes'), is(`c${index + 6}`, 'yes')), []]])),
    { vocabulary: { observations: names.map((name) => observation(name, name, { yes: 'Yes', no: 'No' })) } },
  );
  const order = axesOf(made, []).map((axis) => axis.name);
  for (const [index, name] of names.slice(0, 6).entries()) {
    expect(Math.abs(order.indexOf(name) - order.indexOf(`c${index + 6}`))).toBe(1);
  }
});

test('a test of many parts in any shape reads as its truth table', () => {
  const atoms = fc.oneof(
    fc
      .subarray(['bullseye', 'half-moon', 'star', 'combination'], { minLength: 1 })
      .map((values) => is('break', ...values)),
    fc.constantFrom('driver-view', 'elsewhere').map((value) => isNot('zone', value)),
    fc
      .tuple(
        fc.constantFrom('below' as const, 'at-most' as const, 'above' as const, 'at-least' as const, 'equal' as const),
        fc.constantFrom(-20, 0, 10, 20, 60),
      )
      .map(([comparison, value]) => compare('temperature', comparison, value, '°C')),
  );
  const { tests } = fc.letrec<{ tests: Test }>((tie) => ({
    tests: fc.oneof(
      { maxDepth: 3 },
      atoms,
      tie('tests').map(not),
      fc.array(tie('tests'), { minLength: 2, maxLength: 3 }).map((parts) => all(...parts)),
      fc.array(tie('tests'), { minLength: 2, maxLength: 3 }).map((parts) => any(...parts)),
    ),
  }));
  fc.assert(
    fc.property(tests, (one) => {
      const { situations } = situationsFor([one]);
      const { holds } = situations.region(one);
      for (const kind of ['bullseye', 'half-moon', 'star', 'combination']) {
        for (const zone of ['driver-view', 'elsewhere']) {
          for (const celsius of [-20, -7, 0, 3, 10, 11, 20, 33, 60]) {
            const scenario = { break: kind, zone, temperature: settle(celsius + 273.15) };
            expect(situations.holdsIn(holds, scenario)).toBe(truth(one, scenario));
          }
        }
      }
    }),
  );
});

function truth(one: Test, scenario: Scenario): boolean {
  switch (one.kind) {
    case 'is':
      return one.values.includes(String(scenario[one.subject])) !== one.negated;
    case 'compare': {
      const [value, limit] = [Number(scenario[one.subject]), one.quantity.si];
      return {
        below: value < limit,
        'at-most': value <= limit,
        above: value > limit,
        'at-least': value >= limit,
        equal: value === limit,
      }[one.comparison];
    }
    case 'between':
      return Number(scenario[one.subject]) >= one.low.si && Number(scenario[one.subject]) <= one.high.si;
    case 'not':
      return !truth(one.test, scenario);
    case 'and':
      return one.tests.every((part) => truth(part, scenario));
    case 'or':
      return one.tests.some((part) => truth(part, scenario));
    default:
      return one.kind === 'always';
  }
}

test('a procedure beyond the bounds is called too tangled, with the conditions that make it so', async () => {
  const made = await procedureOf(entangledSheet(24));
  expect(interpret(made).kind).toBe('run');
  const interpretation = interpret(made, undefined, { bounds: { nodes: 60, steps: 1_000_000 } });
  const names = made.vocabulary.observations.map((one) => one.name);
  expect(interpretation.kind).toBe('too-tangled');
  if (interpretation.kind === 'too-tangled') {
    expect(interpretation.conditions.length).toBeGreaterThan(0);
    for (const name of interpretation.conditions) expect(names).toContain(name);
  }
});
