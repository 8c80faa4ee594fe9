import { checklistToHtml, checklistToJson, checklistToMarkdown, notice } from '@quarrel/checklist';
import { describe, expect, test } from 'vitest';
import {
  cautionOf,
  cautionText,
  effect,
  hazard,
  is,
  isNot,
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
} from '../build.js';
import { compiled, expectValid } from './compiled.js';
import { paper } from './paper.js';

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

test('cautions stand before the instruction', () => {
  const checklist = compiled(paper);
  for (const render of [checklistToHtml, checklistToMarkdown]) {
    const text = render(checklist);
    const steps = text.slice(text.indexOf('Steps'));
    for (const [caution, instruction] of [
      ['UV light can hurt eyes and skin', 'Cure with the injector still on'],
      ['The legs can run', 'Flex the legs outward'],
      ['Uncured resin irritates the skin', 'Press resin in'],
    ] as const) {
      expect(steps.indexOf(caution)).toBeGreaterThan(0);
      expect(steps.indexOf(caution)).toBeLessThan(steps.indexOf(instruction));
    }
  }
});
