import type { Test } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import {
  act,
  all,
  any,
  choice,
  compare,
  effect,
  is,
  isNot,
  observation,
  procedure,
  reading,
  span,
  step,
  thing,
  when,
} from '../build.js';
import { compiled } from './compiled.js';

describe('conditions', () => {
  const vocabulary = {
    observations: [
      observation('kind', 'Kind', { a: 'A', b: 'B', c: 'C' }),
      observation('zone', 'Zone', { in: 'In', out: 'Out' }),
    ],
    readings: [reading('heat', 'Heat', 0, 40, '°C')],
  };
  const known = step('know', 'Know', {
    effects: [effect.observe('kind'), effect.observe('zone'), effect.read('heat')],
  });

  test('keep what the situation leaves open, in the words and labels of the sheet', () => {
    const cold = compare('heat', 'below', 10, '°C');
    const body = [
      known,
      when([[all(any(is('kind', 'a', 'b'), cold), is('zone', 'in')), [step('one', 'One')]]], [step('two', 'Two')]),
    ];
    const texts = (...suppose: Test[]) =>
      compiled(procedure('p', 'P', body, { vocabulary }), { suppose }).flow.map((part) =>
        part.kind === 'branch' ? part.cases[0]?.circumstance : part.kind,
      );
    expect(texts().slice(1)).toEqual([
      {
        test: expect.any(String),
        text: '(Kind is A or B, or Heat is below 10 °C) and Zone is In',
      },
    ]);
    expect(texts(is('zone', 'in'), isNot('kind', 'b')).slice(1)).toEqual([
      { test: expect.any(String), text: 'Kind is A or Heat is below 10 °C' },
    ]);
    expect(texts(is('kind', 'c'), is('zone', 'in')).slice(1)).toEqual([
      { test: 'heat below 10 °C', text: 'Heat is below 10 °C' },
    ]);
    expect(texts(is('zone', 'out'))).toEqual(['step', 'step']);
  });

  test('take a label without what it explains behind a colon, where that tells values apart', () => {
    const labels = { a: 'Star: fine legs', b: 'Loose: chips', c: 'Loose: dirt' };
    const body = [known, when([[is('kind', 'a', 'b'), [step('one', 'One')]]], [step('two', 'Two')])];
    const observations = [observation('kind', 'Kind', labels), observation('zone', 'Zone', { in: 'In', out: 'Out' })];
    const { flow } = compiled(procedure('p', 'P', body, { vocabulary: { ...vocabulary, observations } }));
    expect(flow[1]).toMatchObject({ cases: [{ circumstance: { text: 'Kind is Star or Loose: chips' } }] });
  });

  test('cases that can no longer be asked go; the one that is left when the others fail is otherwise', () => {
    const body = [
      known,
      when(
        [
          [is('kind', 'a'), [step('a', 'A')]],
          [is('kind', 'b'), [step('b', 'B')]],
          [is('kind', 'c'), [step('c', 'C')]],
        ],
        [step('never', 'Never')],
      ),
    ];
    const checklist = compiled(procedure('p', 'P', body, { vocabulary }), { suppose: [isNot('kind', 'b')] });
    expect(checklist.steps.map(({ id }) => id)).toEqual(['know', 'a', 'c']);
    expect(checklist.flow[1]).toMatchObject({
      kind: 'branch',
      cases: [{ circumstance: { test: 'kind is a', text: 'Kind is A' } }],
      otherwise: { circumstance: { test: 'kind is c', text: 'Kind is C' } },
    });
  });

  test('a thing of a choice in which the conditions may have changed is allowed for both ways', () => {
    const drops = span(2, 3, 'drops');
    const body = [
      known,
      step('first', 'First', { effects: [effect.choose('fill', drops)] }),
      step('again', 'Look again', { effects: [effect.observe('kind')] }),
      step('second', 'Second', { effects: [effect.choose('fill', drops)] }),
    ];
    const checklist = compiled(
      procedure('p', 'P', body, {
        choices: [choice('resin', 'fill', [[is('kind', 'a'), 'thin']], 'thick')],
        vocabulary: { ...vocabulary, things: [thing('resin', 'thin', 'Thin'), thing('resin', 'thick', 'Thick')] },
      }),
    );
    expect(checklist.kit.things.map(({ name, uses }) => [name, uses])).toEqual([
      ['thin', [{ amounts: [expect.objectContaining({ text: '0 to 6 drops' })], sure: false }]],
      ['thick', [{ amounts: [expect.objectContaining({ text: '0 to 6 drops' })], sure: false }]],
    ]);
  });

  test('a tool that is used again is not needed twice', () => {
    const body = [1, 2, 3].map((n) =>
      step(`s${n}`, 'Hold', { effects: [effect.take('cup', span(n, n, 'pieces')), effect.act('press')] }),
    );
    const { kit } = compiled(
      procedure('p', 'P', body, {
        vocabulary: { acts: [act('press', 'Press')], things: [thing('tool', 'cup', 'Suction cup')] },
      }),
    );
    expect(kit.things[0]?.uses[0]?.amounts.map(({ text }) => text)).toEqual(['3 pieces']);
  });

  test('amounts that differ in every situation are told as one range, at once', () => {
    const names = Array.from({ length: 30 }, (_, index) => `c${index}`);
    const wipes = (index: number) => [effect.take('wipe', span(2 ** index, 2 ** index, 'pieces'))];
    const body = [
      step('know', 'Know', { effects: names.map((name) => effect.observe(name)) }),
      ...names.map((name, index) => when([[is(name, 'yes'), [step(name, name, { effects: wipes(index) })]]])),
    ];
    const { kit } = compiled(
      procedure('p', 'P', body, {
        vocabulary: {
          observations: names.map((name) => observation(name, name, { no: 'No', yes: 'Yes' })),
          things: [thing('consumable', 'wipe', 'Wipe')],
        },
      }),
    );
    expect(kit.things[0]?.uses).toEqual([
      { amounts: [expect.objectContaining({ text: `0 to ${2 ** 30 - 1} pieces` })], sure: false },
    ]);
  });
});
