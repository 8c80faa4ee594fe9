import { interpret } from '@quarrel/analysis';
import {
  checklistToHtml,
  checklistToJson,
  checklistToMarkdown,
  compileProcedure,
  type FlowPart,
  notice,
} from '@quarrel/checklist';
import type { Scenario, Test } from '@quarrel/model';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { procedures } from '../analysis/judge/arbitrary.js';
import {
  act,
  all,
  any,
  cautionOf,
  cautionText,
  choice,
  compare,
  effect,
  hazard,
  is,
  isNot,
  nowhere,
  observation,
  procedure,
  reading,
  repeat,
  span,
  stage,
  step,
  stop,
  thing,
  when,
} from './build.js';
import { compiled, expectValid } from './compiled.js';

describe('texts of a sheet stay texts', () => {
  const nasty = '<script>alert(1)</script> & "quoted" \'single\' **bold** `code` [a](b) | # </style> \u0007';
  const hostile = procedure(
    'hostile',
    nasty,
    [
      stage(
        nasty,
        step('one', nasty, {
          documentation: nasty,
          notes: [nasty],
          photos: [nasty],
          cautions: [cautionText(nasty), cautionOf('sharp')],
          effects: [
            effect.observe('kind'),
            effect.read('width', span(1, 2, 'mm'), nasty),
            effect.take('tool'),
            effect.check(nasty, nasty),
          ],
        }),
        when([[is('kind', 'a'), [step('two', nasty)]]], [stop(nasty)]),
        repeat([step('three', nasty)], { until: nasty, orElseStop: nasty, atMost: 2 }),
      ),
    ],
    {
      revision: nasty,
      documentation: nasty,
      vocabulary: {
        observations: [observation('kind', nasty, { a: nasty, b: nasty })],
        readings: [reading('width', nasty, 0, 10, 'mm')],
        hazards: [hazard('sharp', nasty, 'danger', [{ kind: 'wear', text: nasty }], nasty)],
        things: [thing('tool', 'tool', nasty)],
      },
    },
  );
  const checklist = compiled(hostile, { suppose: [isNot('kind', 'c')] });

  test('in HTML', () => {
    const page = checklistToHtml(checklist);
    expect(page).not.toMatch(/<script|<\/script|<a /);
    expect(page).not.toContain('\u0007');
    expect(page.match(/<style>/g)).toHaveLength(1);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    const style = page.slice(page.indexOf('<style>'), page.indexOf('</style>'));
    expect(style).not.toContain('alert(');
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;quoted&quot;');
  });

  test('in Markdown', () => {
    const text = checklistToMarkdown(checklist);
    const unescaped = text.replace(/\\./g, '');
    expect(unescaped).not.toMatch(/<script|`|\[a\]|\]\(/);
    expect(text).toContain('\\*\\*bold\\*\\* \\`code\\` \\[a\\](b) \\|');
  });

  test('in JSON', () => {
    const document = JSON.parse(checklistToJson(checklist));
    expectValid(document);
    expect(document.steps[0].text).toBe(nasty);
  });
});

test('every output says the notice and its digest, and a draft says so', () => {
  const checklist = compiled(procedure('short', 'Short', [step('one', 'One')]), { draft: true });
  for (const render of [checklistToHtml, checklistToMarkdown, checklistToJson]) {
    const text = render(checklist);
    for (const line of notice) expect(text).toContain(line);
    expect(text).toContain(checklist.digest.slice(0, 12));
    expect(text).toMatch(/DRAFT: this|"draft": true/);
    expect(render({ ...checklist, draft: false })).not.toMatch(/DRAFT|"draft": true/);
  }
});

test('NOTICE never carries the alert symbol; what hurts people always does', () => {
  const signals = ['danger', 'warning', 'caution', 'notice'] as const;
  for (const signal of signals) {
    const page = checklistToHtml(
      compiled(
        procedure('p', 'P', [step('one', 'One', { cautions: [cautionOf('h')] })], {
          vocabulary: { hazards: [hazard('h', 'H', signal, [])] },
        }),
      ),
    );
    expect(page).toContain(`<span class="signal">${signal.toUpperCase()}</span>`);
    expect(page.includes('<svg')).toBe(signal !== 'notice');
  }
});

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
        text: '(Kind is A or B or Heat is below 10 °C) and Zone is In',
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
});

test('in one situation nothing is left open but what could not be read', () => {
  fc.assert(
    fc.property(procedures(), (any) => {
      const whole = interpret(any);
      fc.pre(whole.kind === 'run');
      const one = whole.run.situations.typical(whole.run.covered);
      fc.pre(one !== undefined);
      const { steps, flow } = compiled(any, { suppose: testsOf(one) });
      for (const { things } of steps) {
        for (const thing of things) expect(thing.options.length).toBeLessThan(2);
      }
      for (const { cases } of branchesIn(flow)) {
        for (const { circumstance } of cases) expect(circumstance.text).toContain('could not be read');
      }
    }),
    { numRuns: 300 },
  );
});

function branchesIn(flow: readonly FlowPart[]): readonly Extract<FlowPart, { kind: 'branch' }>[] {
  return flow.flatMap((part) => {
    if (part.kind === 'step') return branchesIn(part.meanwhile);
    if (part.kind === 'stop') return [];
    if (part.kind !== 'branch') return branchesIn(part.body);
    return [part, ...part.cases.flatMap(({ body }) => branchesIn(body)), ...branchesIn(part.otherwise?.body ?? [])];
  });
}

/** A situation as tests. */
function testsOf(scenario: Scenario): readonly Test[] {
  return Object.entries(scenario).map(([subject, value]): Test => {
    if (typeof value === 'string') return is(subject, value);
    const quantity = { dimension: 'temperature', si: value, text: `${value} K`, unit: 'K', range: nowhere } as const;
    return { kind: 'compare', subject, comparison: 'equal', quantity, range: nowhere };
  });
}

test('any procedure: JSON is valid, the flow holds every step once, and outputs repeat', () => {
  fc.assert(
    fc.property(procedures(), (any) => {
      const result = compileProcedure(any);
      fc.pre(result.kind === 'checklist');
      const { checklist } = result;
      expectValid(JSON.parse(checklistToJson(checklist)));
      const ids = checklist.steps.map(({ id }) => id);
      expect(JSON.stringify(checklist.flow).match(/"step":"[^"]*"/g) ?? []).toEqual(ids.map((id) => `"step":"${id}"`));
      expect(new Set(checklist.steps.map(({ number }) => number)).size).toBe(ids.length);
      expect(checklistToHtml(compiled(any))).toBe(checklistToHtml(checklist));
      expect(checklistToMarkdown(checklist)).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }),
    { numRuns: 150 },
  );
});
