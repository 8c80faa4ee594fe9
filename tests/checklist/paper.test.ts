import { checklistToHtml, checklistToJson, checklistToMarkdown, compileProcedure } from '@quarrel/checklist';
import { describe, expect, test } from 'vitest';
import { compare, is } from '../build.js';
import { compiled, expectValid } from './compiled.js';
import { expectGolden } from './golden.js';
import { paper } from './paper.js';

const star = { suppose: [is('break', 'star'), compare('glass-temperature', 'equal', 8, '°C')] };
const bullseye = { suppose: [is('break', 'bullseye')] };

describe('times worked out on paper (see paper.ts)', () => {
  const clocks = (options: Parameters<typeof compiled>[1]) =>
    Object.fromEntries(compiled(paper, options).steps.map(({ id, clock }) => [id, [clock.earliest, clock.latest]]));

  test('over all jobs', () => {
    const checklist = compiled(paper);
    expect(checklist.total).toEqual({ least: 225, most: 655 });
    expect(clocks({})).toEqual({
      look: [0, 0],
      measure: [30, 60],
      flex: [40, 70],
      draw: [40, 110],
      massage: [65, 115],
      press: [105, 475],
      cure: [165, 595],
    });
  });

  test('for a star at 8 °C', () => {
    expect(compiled(paper, star).total).toEqual({ least: 245, most: 655 });
    expect(clocks(star)).toMatchObject({ draw: [60, 110], massage: [65, 115], press: [125, 475], cure: [185, 595] });
  });

  test('for a bullseye', () => {
    expect(compiled(paper, bullseye).total).toEqual({ least: 225, most: 615 });
    expect(clocks(bullseye)).toEqual({
      look: [0, 0],
      measure: [30, 60],
      draw: [40, 70],
      press: [105, 435],
      cure: [165, 555],
    });
  });

  test('the ways to stop have their own', () => {
    expect(compiled(paper).stops).toEqual([
      { reason: 'Warm the glass slowly, then start again.', steps: ['measure'], total: { least: 40, most: 70 } },
      { reason: 'Legs stay open: refer the glass.', steps: [], total: { least: 285, most: 595 } },
      { reason: 'The lamp is too weak: have it measured.', steps: ['cure'], total: { least: 225, most: 655 } },
    ]);
    expect(compiled(paper, star).stops.map(({ reason }) => reason)).not.toContain(
      'Warm the glass slowly, then start again.',
    );
  });
});

describe('what a situation decides', () => {
  test('is decided in its checklist, and open in the one for all', () => {
    const kinds = (options: Parameters<typeof compiled>[1]) =>
      compiled(paper, options).flow.flatMap((part) => (part.kind === 'stage' ? part.body.map(({ kind }) => kind) : []));
    expect(kinds({})).toEqual(['step', 'step', 'branch', 'step', 'repeat', 'step']);
    expect(kinds(star)).toEqual(['step', 'step', 'step', 'step', 'repeat', 'step']);
    expect(kinds(bullseye)).toEqual(['step', 'step', 'step', 'repeat', 'step']);
  });

  test('chooses the resin', () => {
    const press = (options: Parameters<typeof compiled>[1]) =>
      compiled(paper, options).steps.find(({ id }) => id === 'press');
    expect(press(star)).toMatchObject({ resin: 'thin', things: [{ options: [{ name: 'thin' }] }] });
    expect(press(bullseye)).toMatchObject({ resin: 'medium' });
    expect(press({})).not.toHaveProperty('resin');
    expect(press({})?.things[0]?.options).toEqual([
      { name: 'thin', label: 'Thin clear resin', circumstance: { test: 'break is star', text: 'Break type is Star' } },
      {
        name: 'medium',
        label: 'Medium resin',
        circumstance: { test: 'break is bullseye', text: 'Break type is Bullseye' },
      },
    ]);
  });

  test('fills the kit', () => {
    const kit = (options: Parameters<typeof compiled>[1]) =>
      compiled(paper, options).kit.things.map(({ name, uses }) => [
        name,
        uses.map(({ amounts, circumstance }) => [amounts.map(({ text }) => text).join(), circumstance?.test]),
      ]);
    expect(kit(star)).toEqual([
      ['probe', [['', undefined]]],
      ['bench', [['', undefined]]],
      ['thin', [['4 to 18 drops', undefined]]],
      ['towel', [['2 pieces', undefined]]],
    ]);
    expect(kit(bullseye)).toEqual([
      ['probe', [['', undefined]]],
      ['bench', [['', undefined]]],
      ['medium', [['4 to 18 drops', undefined]]],
      ['towel', [['1 piece', undefined]]],
    ]);
    expect(Object.fromEntries(kit({}))).toMatchObject({
      thin: [['4 to 18 drops', 'break is star']],
      medium: [['4 to 18 drops', 'break is bullseye']],
      towel: expect.arrayContaining([
        ['2 pieces', 'break is star'],
        ['1 piece', 'break is bullseye'],
      ]),
    });
  });

  test('says which values it is for', () => {
    const covered = (options: Parameters<typeof compiled>[1]) =>
      compiled(paper, options)
        .steps[0]?.observations[0]?.values.filter((value) => value.covered)
        .map(({ name }) => name);
    expect(covered({})).toEqual(['bullseye', 'star']);
    expect(covered(star)).toEqual(['star']);
  });
});

test('cautions come most serious first, announced or raised by an act, each once', () => {
  const cautions = (id: string) =>
    compiled(paper)
      .steps.find((step) => step.id === id)
      ?.cautions.map((one) => one.hazard ?? one.label);
  expect(cautions('cure')).toEqual(['uv', 'lamp-life']);
  expect(cautions('press')).toEqual(['resin-on-skin']);
  expect(cautions('flex')).toEqual(['The legs can run: press lightly.']);
  expect(compiled(paper).kit.wear.map(({ text }) => text)).toEqual([
    'safety glasses',
    'nitrile gloves',
    'glasses that block UV',
  ]);
});

test('what the procedure does not cover has no checklist', () => {
  expect(compileProcedure(paper, { suppose: [is('break', 'crack')] })).toEqual({ kind: 'not-covered' });
});

test('the digest tells procedures and suppositions apart, and nothing else', () => {
  const digest = (options: Parameters<typeof compiled>[1]) => compiled(paper, options).digest;
  expect(digest({ draft: true })).toBe(digest({}));
  expect(digest(star)).not.toBe(digest(bullseye));
  expect(compiled({ ...paper, revision: '4' }).digest).not.toBe(digest({}));
});

describe.each([
  ['paper-all', {}],
  ['paper-star', star],
  ['paper-draft', { ...bullseye, draft: true }],
])('%s', (name, options) => {
  const checklist = compiled(paper, options);

  test('as JSON', () => {
    const text = checklistToJson(checklist);
    expectValid(JSON.parse(text));
    expectGolden(`${name}.json`, text);
  });

  test('as Markdown', () => expectGolden(`${name}.md`, checklistToMarkdown(checklist)));

  test('as a page to print', () => expectGolden(`${name}.html`, checklistToHtml(checklist)));
});

test('JSON says it as the contract has it', () => {
  const document = JSON.parse(checklistToJson(compiled(paper, star)));
  expect(document).toMatchObject({ version: 1, total: { least: 'PT4M5S', most: 'PT10M55S' } });
  const press = document.steps.find((step: { id: string }) => step.id === 'press');
  expect(press).toMatchObject({
    text: 'Press resin in',
    acts: ['press-resin'],
    resin: 'thin',
    hold: { least: 'PT1M', most: 'PT2M' },
    clock: { earliest: 'PT2M5S', latest: 'PT7M55S' },
    cautions: [{ signal: 'caution', hazard: 'resin-on-skin' }],
    things: [{ amount: { least: { value: 4, unit: '[drp]' }, most: { value: 6, unit: '[drp]' } } }],
  });
});
