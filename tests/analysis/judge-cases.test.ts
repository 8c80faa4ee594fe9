import { interpret } from '@quarrel/analysis';
import type { Procedure } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { cellsOf } from './judge/cells.js';
import { engineFacts, questionsOf } from './judge/engine-facts.js';
import { type Facts, lines } from './judge/facts.js';
import { judge } from './judge/naive.js';
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

/** Where each side says that something is so, as `b=star t=10`; the worked cases below are asked of both. */
const sides: readonly (readonly [string, (procedure: Procedure) => Answers])[] = [
  ['the judge', byJudge],
  ['the engine', byEngine],
];

interface Answers {
  readonly where: (line: string) => readonly string[];
  readonly clock: (line: string) => Readonly<Record<string, readonly [number, number]>>;
  readonly span: (line: string) => readonly [number, number] | undefined;
}

function answersOf(facts: Facts, cells: ReturnType<typeof cellsOf>): Answers {
  const named = (cell: number): string => Object.values(cells.scenarios[cell] ?? {}).join(' ');
  return {
    where: (line) => [...(facts.where.get(line) ?? [])].sort((a, b) => a - b).map(named),
    clock: (line) =>
      Object.fromEntries(
        [...(facts.clocks.get(line) ?? [])].map(([cell, { least, most }]) => [named(cell), [least, most]]),
      ),
    span: (line) => {
      const times = facts.spans.get(line);
      return times === undefined ? undefined : [times.least, times.most];
    },
  };
}

function byJudge(given: Procedure): Answers {
  const cells = cellsOf(given);
  const facts = judge(given, cells);
  if (facts === undefined) throw new Error('a worked case is short');
  return answersOf(facts, cells);
}

function byEngine(given: Procedure): Answers {
  const cells = cellsOf(given);
  const found = interpret(given, questionsOf(given));
  if (found.kind !== 'run') throw new Error('a worked case is simple');
  return answersOf(engineFacts(found.run, given, cells), cells);
}

const shape = plain.observation('b', 'eye', 'star', 'crack');
const warmth = plain.reading('t', 0, 30);
const cavity = plain.state('cavity', 'empty', 'filled', 'cured');
const seal = plain.state('seal', 'off', 'seated', 'tight');
const press = act('press', { makes: [becomes('cavity', 'filled')] });
const cure = act('cure', { needs: [is('cavity', 'filled')], makes: [becomes('cavity', 'cured')] });
const plainActs = [press, cure, act('wipe'), act('look')];
const all = ['eye', 'star', 'crack'];
const infinite = Number.POSITIVE_INFINITY;

describe.each(sides)('%s on cases worked by hand', (_, answer) => {
  test('a need is unmet for exactly the breaks that were not filled', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        body: [when(is('b', 'star'), [step([doing('press')])]), step([doing('cure')])],
      }),
    );
    expect(said.where(lines.unmet(1, 0, 0))).toEqual(['eye', 'crack']);
    expect(said.where(lines.state(lines.after(1), 'cavity', 'cured'))).toEqual(all);
    expect(said.where(lines.unread(0, 'b'))).toEqual(all);
  });

  test('a need that is not met is mended, so that it is reported once', () => {
    const wait = act('wait', { needs: [is('cavity', 'filled', 'cured')] });
    const polish = act('polish', { needs: [isNot('cavity', 'empty', 'cured'), is('cavity', 'cured')] });
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: [wait, polish],
        body: [step([doing('wait'), doing('wait'), doing('polish')])],
      }),
    );
    expect(said.where(lines.unmet(0, 0, 0))).toEqual(all);
    expect(said.where(lines.unmet(0, 1, 0))).toEqual([]);
    // `wait` left it filled: that is what `is not` asks, and `is cured` then fails of its own.
    expect(said.where(lines.unmet(0, 2, 0))).toEqual([]);
    expect(said.where(lines.unmet(0, 2, 1))).toEqual(all);
    expect(said.where(lines.state(lines.end, 'cavity', 'cured'))).toEqual(all);
  });

  test('of `or` the first part that can be is mended, of `and` every part that fails', () => {
    const either = act('either', {
      needs: [or(is('b', 'star'), isNot('seal', 'off', 'tight'), is('cavity', 'filled'))],
    });
    const neither = act('neither', { needs: [plain.not(or(is('seal', 'seated'), is('cavity', 'empty')))] });
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity, seal],
        acts: [either, neither],
        body: [step([doing('either')]), step([doing('neither')])],
      }),
    );
    expect(said.where(lines.unmet(0, 0, 0))).toEqual(['eye', 'crack']);
    expect(said.where(lines.state(lines.after(0), 'seal', 'seated'))).toEqual(['eye', 'crack']);
    expect(said.where(lines.state(lines.after(0), 'cavity', 'empty'))).toEqual(all);
    expect(said.where(lines.unmet(1, 0, 0))).toEqual(all);
    // For the star only the cavity fails: the seal is off already, and stays so.
    expect(said.where(lines.state(lines.end, 'seal', 'off'))).toEqual(all);
    expect(said.where(lines.state(lines.end, 'cavity', 'filled'))).toEqual(all);
  });

  test('above and below one value leave exactly that value', () => {
    const said = answer(
      procedure({
        conditions: [warmth],
        choices: [
          plain.choose('fill', [
            [compare('t', 'below', 10), 'thick'],
            [compare('t', 'above', 10), 'thin'],
          ]),
        ],
        body: [step([readingOf('t'), plain.taking('fill')])],
      }),
    );
    expect(said.where(lines.gap(0, 1))).toEqual(['10']);
    expect(said.where(lines.takes(0, 1, 'thick'))).toEqual(['0', '5']);
    expect(said.where(lines.takes(0, 1, 'thin'))).toEqual(['20', '30']);
    expect(said.where(lines.choiceUnread(0, 1, 't'))).toEqual([]);
  });

  test('cases that touch clash only where they give different things', () => {
    const said = answer(
      procedure({
        conditions: [warmth],
        choices: [
          plain.choose('fill', [
            [compare('t', 'at-most', 10), 'thick'],
            [plain.between('t', 10, 20), 'thin'],
            [compare('t', 'at-least', 20), 'thin'],
          ]),
        ],
        body: [step([plain.taking('fill')])],
      }),
    );
    expect(said.where(lines.clash(0, 0, 0, 1))).toEqual(['10']);
    expect(said.where(lines.clash(0, 0, 1, 2))).toEqual([]);
    expect(said.where(lines.rest(0, 0))).toEqual([]);
    expect(said.where(lines.choiceUnread(0, 0, 't'))).toEqual(['0', '5', '10', '15', '20', '25', '30']);
  });

  test('a condition read again has any value that is still covered, and findings speak of the latest', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        covers: [isNot('b', 'crack')],
        body: [
          step([observing('b')]),
          when(is('b', 'star'), [step([doing('press')]), step([observing('b')])]),
          step([doing('cure')]),
        ],
      }),
    );
    expect(said.where(lines.covered)).toEqual(['eye', 'star']);
    expect(said.where(lines.reached(lines.before(2)))).toEqual(['star']);
    expect(said.where(lines.reached(lines.after(2)))).toEqual(['eye', 'star']);
    // Whoever is a star now was one before and was filled; an eye may have been one all along.
    expect(said.where(lines.unmet(3, 0, 0))).toEqual(['eye']);
    expect(said.where(lines.state(lines.before(3), 'cavity', 'filled'))).toEqual(['eye', 'star']);
    expect(said.where(lines.unread(0, 'b'))).toEqual([]);
  });

  test('a reading outside what is accepted stops at the end of its step', () => {
    const said = answer(
      procedure({
        conditions: [warmth],
        body: [
          step([readingOf('t', { low: 10, high: 20, stop: true })], { takes: span(5, 10), hold: span(1, 2) }),
          step([readingOf('t', { low: 20, high: 20 })]),
        ],
      }),
    );
    expect(said.where(lines.stopped('step 0, effect 0'))).toEqual(['0', '5', '25', '30']);
    expect(said.clock(lines.stopClock('step 0, effect 0'))['0']).toEqual([6, 12]);
    expect(said.where(lines.reached(lines.before(1)))).toEqual(['10', '15', '20']);
    // The second reading is a new one, and what it accepts stops nobody.
    expect(said.where(lines.reached(lines.end))).toEqual(['0', '5', '10', '15', '20', '25', '30']);
  });

  test('a check confirms where it is seen, and is seen or not', () => {
    const confirms = becomes('seal', 'tight');
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity, seal],
        body: [
          step([plain.checking()]),
          step([plain.checking({ confirms })]),
          step([plain.checking({ confirms, stop: true })], { takes: span(3, 3) }),
        ],
      }),
    );
    expect(said.where(lines.state(lines.after(0), 'seal', 'tight'))).toEqual([]);
    expect(said.where(lines.state(lines.after(1), 'seal', 'off'))).toEqual(all);
    expect(said.where(lines.state(lines.after(1), 'seal', 'tight'))).toEqual(all);
    expect(said.where(lines.state(lines.end, 'seal', 'off'))).toEqual([]);
    expect(said.clock(lines.stopClock('step 2, effect 0'))).toEqual({ eye: [3, 3], star: [3, 3], crack: [3, 3] });
  });

  test('a repeat makes one to its most passes, and goes on unconfirmed where nothing stops it', () => {
    const body = [step([doing('wipe')], { takes: span(2, 3) })];
    const confirms = becomes('cavity', 'filled');
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        body: [
          plain.repeat(body, { atMost: 3, confirms }),
          plain.repeat(
            body.map((one) => ({ ...one })),
            { atMost: 2, confirms, stop: true },
          ),
        ],
      }),
    );
    expect(said.span(lines.repeatTime(0))).toEqual([2, 9]);
    expect(said.where(lines.state(lines.before(1), 'cavity', 'empty'))).toEqual(all);
    expect(said.where(lines.state(lines.before(1), 'cavity', 'filled'))).toEqual(all);
    expect(said.where(lines.state(lines.end, 'cavity', 'empty'))).toEqual([]);
    expect(said.clock(lines.clock(lines.before(1))).eye).toEqual([2, 12]);
    expect(said.clock(lines.clock(lines.end)).eye).toEqual([4, 15]);
    expect(said.clock(lines.stopClock('repeat 1')).eye).toEqual([6, 15]);
  });

  test('a repeat without a bound has no most where a pass takes time', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        states: [cavity],
        acts: plainActs,
        body: [plain.repeat([when(is('b', 'star'), [step([doing('press')], { takes: span(4, 5) })])])],
      }),
    );
    expect(said.clock(lines.clock(lines.end))).toEqual({ eye: [0, 0], star: [4, infinite], crack: [0, 0] });
    expect(said.clock(lines.clock(lines.before(0)))).toEqual({ star: [0, infinite] });
    expect(said.span(lines.repeatTime(0))).toEqual([0, infinite]);
  });

  test('a step ends when its hold and what is done meanwhile are both over', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        body: [
          step(
            [
              plain.meanwhile(
                step([], { takes: span(1, 2) }),
                when(is('b', 'star'), [step([], { hold: span(6, 9) })]),
                when(is('b', 'crack'), [plain.stop]),
              ),
            ],
            { takes: span(10, 20), hold: span(4, 5) },
          ),
          step([]),
        ],
      }),
    );
    expect(said.clock(lines.clock(lines.before(1))).eye).toEqual([10, 20]);
    expect(said.clock(lines.clock(lines.before(2)))).toEqual({ star: [11, 22] });
    expect(said.clock(lines.clock(lines.before(3)))).toEqual({ eye: [14, 25], star: [17, 31] });
    expect(said.clock(lines.stopClock('stop 0'))).toEqual({ crack: [11, 22] });
    expect(said.where(lines.outlasted(0))).toEqual(['star']);
    expect(said.span(lines.meanwhile(0))).toEqual([1, 11]);
  });

  test('a span without a most has no end, a missing one takes no time', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        body: [step([], { takes: span(2, undefined) }), step([], { hold: span(undefined, 7) }), step([])],
      }),
    );
    expect(said.clock(lines.clock(lines.before(1))).eye).toEqual([2, infinite]);
    expect(said.clock(lines.clock(lines.before(2))).eye).toEqual([2, infinite]);
    expect(said.clock(lines.clock(lines.after(2))).eye).toEqual([2, infinite]);
  });

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
