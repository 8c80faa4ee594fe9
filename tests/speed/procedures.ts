import type { Act, Block, Procedure, Step } from '@quarrel/model';
import {
  act,
  all,
  is,
  isNot,
  not,
  observation,
  procedure,
  q,
  span,
  stage,
  state,
  step,
  when,
} from '../checklist/build.js';

/** How the conditions of a made-up procedure are asked about. */
export type Shape = 'independent' | 'paired';

const yesOrNo = { yes: 'Yes', no: 'No' };

/**
 * A procedure of about `steps` steps over `conditions` conditions of two values each. Every block observes nothing new, tests
 * one condition (`independent`) or one of the first half together with its partner of the second half (`paired`: partners are
 * declared far apart), does an act that a state needs, and goes on; half-way through a referral stops what no block may handle.
 */
export function made(steps: number, conditions: number, shape: Shape): Procedure {
  const names = Array.from({ length: conditions }, (_, index) => `c${index}`);
  const state1 = state('cavity', 'empty', 'evacuated', 'filled');
  const acts: readonly Act[] = [
    act('draw', 'Draw', { makes: [{ state: 'cavity', value: 'evacuated', range: q(1, 's').range }] }),
    {
      ...act('press', 'Press', { makes: [{ state: 'cavity', value: 'filled', range: q(1, 's').range }] }),
      needs: [{ rule: 'press-after-draw', test: is('cavity', 'evacuated'), range: q(1, 's').range }],
    },
  ];
  let number = 0;
  const doing = (name: string, seconds: number): Step =>
    step(`s${number++}`, `Step ${number}`, {
      effects: [{ kind: 'act', act: name, range: q(1, 's').range }],
      takes: span(seconds, seconds * 2, 's'),
    });
  const observe: Block = names.map((name) =>
    step(`s${number++}`, `See ${name}`, { effects: [{ kind: 'observe', condition: name, range: q(1, 's').range }] }),
  );
  const half = Math.floor(conditions / 2);
  const testOf = (block: number) => {
    const first = block % (shape === 'paired' ? half : conditions);
    return shape === 'paired' ? all(is(`c${first}`, 'yes'), is(`c${first + half}`, 'yes')) : is(`c${first}`, 'yes');
  };
  const blocks = Array.from({ length: Math.max(1, Math.ceil((steps - conditions) / 4)) }, (_, block): Block => {
    const test = testOf(block);
    return [
      doing('draw', 1 + (block % 7)),
      when([[test, [doing('press', 2 + (block % 5))]]], [doing('draw', 3)]),
      when([[not(test), [doing('press', 4)]]]),
    ];
  });
  return procedure('made', 'Made', [stage('Look', ...observe), stage('Work', ...blocks.flat())], {
    vocabulary: {
      observations: names.map((name) => observation(name, name, yesOrNo)),
      states: [state1],
      acts,
    },
  });
}

/** Where all blocks leave their mark on one state, so that one diagram has to hold all pairs at once. */
export function entangled(conditions: number): Procedure {
  const base = made(conditions * 2, conditions, 'paired');
  const half = Math.floor(conditions / 2);
  const marks: Block = Array.from({ length: half }, (_, pair) =>
    when([
      [
        all(is(`c${pair}`, 'yes'), isNot(`c${pair + half}`, 'no')),
        [step(`mark${pair}`, 'Mark', { effects: [{ kind: 'act', act: 'press', range: q(1, 's').range }] })],
      ],
    ]),
  );
  const last = step('last', 'Last', { effects: [{ kind: 'act', act: 'press', range: q(1, 's').range }] });
  return { ...base, body: [...base.body, ...marks, last] };
}
