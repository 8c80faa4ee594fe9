import { describe, expect, test } from 'vitest';
import { all, cavity, infinite, plainActs, seal, shape, sides, warmth } from './judge/answers.js';
import { lines } from './judge/facts.js';
import * as plain from './judge/plain.js';

const { act, becomes, compare, doing, is, isNot, observing, or, procedure, readingOf, span, step, when } = plain;

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

  test('of `or` a part that no value can make true is passed over', () => {
    const never = isNot('seal', 'off', 'seated', 'tight');
    const cannot = plain.and(is('cavity', 'filled'), is('b', 'crack'));
    const either = act('either', { needs: [or(never, cannot, isNot('seal', 'off'))] });
    const said = answer(
      procedure({ conditions: [shape], states: [cavity, seal], acts: [either], body: [step([doing('either')])] }),
    );
    expect(said.where(lines.unmet(0, 0, 0))).toEqual(all);
    expect(said.where(lines.state(lines.end, 'cavity', 'filled'))).toEqual(['crack']);
    expect(said.where(lines.state(lines.end, 'seal', 'seated'))).toEqual(['eye', 'star']);
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

  test('a repeat without a bound takes no time where its passes take none, whatever is read again in them', () => {
    const said = answer(
      procedure({
        conditions: [shape],
        body: [
          step([], { takes: span(3, undefined) }),
          plain.repeat([when(is('b', 'star'), [step([observing('b')])])]),
          step([plain.meanwhile(step([], { hold: span(2, undefined) }))]),
        ],
      }),
    );
    expect(said.span(lines.repeatTime(0))).toEqual([0, 0]);
    expect(said.clock(lines.clock(lines.end)).eye).toEqual([5, infinite]);
    expect(said.where(lines.outlasted(2))).toEqual(all);
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
});
