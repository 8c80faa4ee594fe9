import { describe, expect, test } from 'vitest';
import { all, cavity, plainActs, press, seal, shape, sides, warmth } from './judge/answers.js';
import { lines } from './judge/facts.js';
import * as plain from './judge/plain.js';

const {
  act,
  becomes,
  compare,
  doing,
  is,
  isNot,
  kelvin,
  observing,
  or,
  procedure,
  readingOf,
  rule,
  seconds,
  span,
  step,
  when,
} = plain;

describe.each(sides)('%s on rules worked by hand', (_, answer) => {
  test('what comes before and what never comes after count in their order within a step', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        acts: plainActs.map((one) => ({ ...one, needs: [], makes: [] })),
        rules: [
          rule('order', { kind: 'precedence', first: 'wipe', later: 'press' }, isNot('b', 'eye')),
          rule('never', { kind: 'absence', act: 'press', after: 'cure' }),
        ],
        body: [step([doing('press'), doing('wipe'), doing('press'), doing('cure')]), step([doing('press')])],
      }),
    );
    expect(said.where(lines.breach(0, 0, 0))).toEqual(['star', 'crack']);
    expect(said.where(lines.breach(0, 0, 2))).toEqual([]);
    expect(said.where(lines.breach(1, 0, 2))).toEqual([]);
    expect(said.where(lines.breach(1, 1, 0))).toEqual(all);
  });

  test('an answer is owed from its trigger to the end, unless the work stops', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        rules: [rule('answer', { kind: 'response', trigger: 'wipe', response: 'look' }, isNot('b', 'eye'))],
        body: [
          step([doing('look'), doing('wipe')]),
          when(is('b', 'star'), [plain.stop]),
          step([doing('wipe'), doing('look'), doing('wipe')]),
        ],
      }),
    );
    expect(said.where(lines.unanswered(0, 1, 0))).toEqual([]);
    expect(said.where(lines.unanswered(1, 0, 0))).toEqual([]);
    expect(said.where(lines.unanswered(1, 2, 0))).toEqual(['crack']);
  });

  test('a missing answer speaks of the situation in which it was triggered', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        rules: [rule('answer', { kind: 'response', trigger: 'wipe', response: 'look' })],
        body: [
          step([observing('b')]),
          when(is('b', 'star'), [step([doing('wipe')]), step([observing('b')])]),
          when(is('b', 'crack'), [step([doing('look')])]),
        ],
      }),
    );
    expect(said.where(lines.unanswered(1, 0, 0))).toEqual(['star']);
  });

  test('an answer comes too late by the most that may have passed', () => {
    const within = (si: number) =>
      ({ kind: 'response', trigger: 'wipe', response: 'look', within: seconds(si) }) as const;
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        rules: [rule('eleven', within(11)), rule('twelve', within(12))],
        body: [
          step([doing('wipe')], { takes: span(1, 3), hold: span(2, 4) }),
          when(is('b', 'star'), [step([doing('wipe')], { takes: span(5, 5) })], [step([], { takes: span(1, 4) })]),
          step([doing('look'), doing('look')]),
        ],
      }),
    );
    // Star: 7 + 5 = 12 since the first; the others: 7 + 4 = 11.
    expect(said.where(lines.late(3, 0, 0))).toEqual(['star']);
    expect(said.where(lines.late(3, 0, 1))).toEqual([]);
    expect(said.where(lines.late(3, 1, 0))).toEqual([]);
  });

  test('what is triggered during a hold has waited out the whole hold at its end', () => {
    const within = (si: number) =>
      ({ kind: 'response', trigger: 'wipe', response: 'look', within: seconds(si) }) as const;
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        rules: [rule('eight', within(8)), rule('nine', within(9)), rule('three', within(3))],
        body: [
          step(
            [
              plain.meanwhile(
                step([], { takes: span(2, 2) }),
                step([doing('wipe')], { takes: span(4, 4) }),
                step([doing('look')]),
                step([doing('wipe')]),
              ),
            ],
            {
              takes: span(30, 30),
              hold: span(1, 9),
            },
          ),
          step([doing('look')]),
        ],
      }),
    );
    expect(said.where(lines.late(3, 0, 2))).toEqual(all);
    expect(said.where(lines.late(3, 0, 0))).toEqual([]);
    expect(said.where(lines.late(5, 0, 0))).toEqual(all);
    expect(said.where(lines.late(5, 0, 1))).toEqual([]);
  });

  test('what is asked at the end counts only for runs that come there', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity, seal],
        acts: [press],
        rules: [
          rule('full', { kind: 'final', test: or(is('cavity', 'filled'), is('seal', 'tight')) }),
          rule('eyes', { kind: 'final', test: is('cavity', 'filled') }, is('b', 'eye')),
        ],
        body: [
          when(is('b', 'star'), [plain.stop]),
          when(
            plain.unreadable,
            [step([doing('press')])],
            [step([plain.checking({ confirms: becomes('seal', 'tight') })])],
          ),
        ],
      }),
    );
    expect(said.where(lines.breachAtEnd(0))).toEqual(['eye', 'crack']);
    expect(said.where(lines.breachAtEnd(1))).toEqual(['eye']);
    expect(said.where(lines.asked(1))).toEqual(['eye', 'crack']);
    expect(said.where(lines.holds(1))).toEqual(['eye', 'crack']);
    expect(said.where(lines.fallthrough(1))).toEqual(['eye', 'crack']);
  });

  test('a hold is held against its bounds where the act is done', () => {
    const bound = (kind: 'at-least' | 'at-most') =>
      ({ kind: 'hold', act: 'press', bound: kind, quantity: seconds(5) }) as const;
    const said = answer(
      procedure({
        conditions: [warmth],
        states: [cavity],
        acts: [press],
        rules: [rule('long', bound('at-least'), compare('t', 'below', 10)), rule('short', bound('at-most'))],
        body: [
          step([doing('press')], { hold: span(4, 5) }),
          step([doing('press')], { hold: span(5, undefined) }),
          step([doing('press')]),
        ],
      }),
    );
    expect(said.where(lines.breach(0, 0, 0))).toEqual(['0', '5']);
    expect(said.where(lines.breach(1, 0, 0))).toEqual([]);
    expect(said.where(lines.breach(0, 1, 0))).toEqual([]);
    expect(said.where(lines.breach(1, 1, 0))).toEqual(['0', '5', '10', '20', '30']);
    expect(said.where(lines.breach(0, 2, 0))).toEqual(['0', '5']);
    expect(said.where(lines.breach(1, 2, 0))).toEqual([]);
  });

  test('a hazard is announced by the step that raises it or by one before', () => {
    const burn = act('burn', { raises: ['heat'] });
    const said = answer(
      procedure({
        conditions: [shape],
        acts: [burn],
        body: [
          when(is('b', 'star'), [step([], { caution: 'heat' })]),
          step([doing('burn')]),
          step([doing('burn')], { caution: 'heat' }),
          step([doing('burn')]),
        ],
      }),
    );
    expect(said.where(lines.unannounced(1, 0, 'heat'))).toEqual(['eye', 'crack']);
    expect(said.where(lines.unannounced(2, 0, 'heat'))).toEqual([]);
    expect(said.where(lines.unannounced(3, 0, 'heat'))).toEqual([]);
  });

  test('cases are asked in order, and only by runs that come to them', () => {
    const said = answer(
      procedure({
        conditions: [shape, warmth],
        covers: [plain.or(is('b', 'crack'), compare('t', 'equal', 0))],
        body: [
          step([observing('b')]),
          {
            ...when(is('b', 'star'), []),
            cases: [...when(is('b', 'star'), []).cases, ...when(compare('t', 'at-most', 10), [step([])]).cases],
            otherwise: [step([readingOf('t', { low: kelvin(0).si })])],
          },
        ],
      }),
    );
    expect(said.where(lines.asked(1))).toEqual(['eye 0', 'crack 0', 'crack 5', 'crack 10', 'crack 20', 'crack 30']);
    expect(said.where(lines.unread(0, 'b'))).toEqual([]);
    expect(said.where(lines.unread(1, 't'))).toEqual(said.where(lines.asked(1)));
    expect(said.where(lines.fallthrough(0))).toEqual(['crack 20', 'crack 30']);
    expect(said.where(lines.reached(lines.before(2)))).toEqual(['crack 20', 'crack 30']);
  });
});
