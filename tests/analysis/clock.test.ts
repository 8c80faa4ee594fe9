import { interpret, type Run } from '@quarrel/analysis';
import type { Block, Test } from '@quarrel/model';
import { expect, test } from 'vitest';
import { is, observation, procedure, span, step, when } from '../build.js';

const count = 14;
const names = Array.from({ length: count }, (_, number) => `c${number}`);

/** Every condition adds twice as long as the one before, so that no two situations take the same time; then some more. */
function runOf(...more: Block): Run {
  const body = names.map((name, number) =>
    when([[is(name, 'yes'), [step(`wait-${name}`, 'Wait', { takes: span(2 ** number, 2 ** number, 's') })]]]),
  );
  const observations = names.map((name) => observation(name, name, { yes: 'Yes', no: 'No' }));
  const found = interpret(procedure('p', 'P', [...body, ...more], { vocabulary: { observations } }));
  if (found.kind !== 'run') throw new Error('too tangled');
  return found.run;
}

function closely(run: Run, ...tests: Test[]) {
  const { situations, end } = run;
  const within = tests.reduce(
    (region, one) => situations.store.and(region, situations.region(one).holds),
    situations.store.everywhere,
  );
  return end.moment.clock.closely(within);
}

test('a clock looked at closely tells apart what adds up in many ways', () => {
  const run = runOf();
  const all = 2 ** count - 1;
  expect(closely(run)).toEqual({ least: 0, most: all });
  for (const [number, name] of names.entries()) {
    expect(closely(run, is(name, 'yes'))).toEqual({ least: 2 ** number, most: all });
    expect(closely(run, is(name, 'no'))).toEqual({ least: 0, most: all - 2 ** number });
  }
  expect(closely(run, is('c0', 'yes'), is('c9', 'no'))).toEqual({ least: 1, most: all - 512 });
});

test('what is asked early and late is kept in mind as long as it matters', () => {
  const wait = step('late', 'Wait longer', { takes: span(10, 10, 's') });
  const run = runOf(when([[is('c2', 'no'), [wait]]]));
  expect(closely(run)).toEqual({ least: 4, most: 2 ** count - 1 - 4 + 10 });
  expect(closely(run, is('c2', 'no'))).toEqual({ least: 10, most: 2 ** count - 1 - 4 + 10 });
  expect(closely(run, is('c2', 'yes'))).toEqual({ least: 4, most: 2 ** count - 1 });
});

test('where nothing comes there is no time', () => {
  expect(closely(runOf(), is('c0', 'yes'), is('c0', 'no'))).toBeUndefined();
});
