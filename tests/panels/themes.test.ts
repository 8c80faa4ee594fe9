import { describe, expect, test } from 'vitest';
import { checklistShow, coverageShow, holdsShow, timelineShow } from './answers.js';
import { openPanel, withBrowser } from './panel.js';
import { exampleIn } from './shown.js';
import { lightTheme, themes } from './themes.js';

withBrowser();

const standard = await exampleIn('school/stone-chip.quarrel');
const draft = await exampleIn('draft/faulty-draft.quarrel');

// The pictures that these tests leave in out/panels/ are there to be looked at.
describe.each(themes)('in a $name theme nothing bars the way', (theme) => {
  test('to a timeline', async () => {
    const panel = await openPanel({ view: 'timeline', theme });
    await panel.say(timelineShow(standard, { 'glass-temperature': 281.15 }));
    await panel.page.locator('[data-step="long-draw"]').waitFor();
    await panel.picture(`timeline-${theme.name}`);
    await panel.page.locator('[data-step="set-bridge"]').scrollIntoViewIfNeeded();
    await panel.picture(`timeline-later-${theme.name}`);
    expect(await panel.barriers()).toEqual([]);
    await panel.say(timelineShow(draft, {}));
    await panel.page.locator('.findings').first().waitFor();
    await panel.say({ kind: 'cursor', uri: draft.procedure.uri, line: 75 });
    await panel.picture(`timeline-draft-${theme.name}`);
    expect(await panel.barriers()).toEqual([]);
    expect(panel.problems).toEqual([]);
  });

  test('to a coverage', async () => {
    const panel = await openPanel({ view: 'coverage', theme });
    for (const by of ['choice', 'time', 'findings'] as const) {
      await panel.say(coverageShow(draft, { by, across: 'break', down: 'glass-temperature', fixed: {} }));
      await panel.page
        .locator(`.region.${by === 'findings' ? 'found' : by}`)
        .first()
        .waitFor();
      await panel.picture(`coverage-${by}-${theme.name}`);
      expect(await panel.barriers()).toEqual([]);
    }
    expect(panel.problems).toEqual([]);
  });

  test('to holds against the temperature', async () => {
    const panel = await openPanel({ view: 'holds', theme });
    for (const [name, example] of [
      ['school', standard],
      ['draft', draft],
    ] as const) {
      await panel.say(holdsShow(example, {}));
      await panel.page.getByRole('heading', { name: example.procedure.label }).waitFor();
      await panel.picture(`holds-${name}-${theme.name}`);
      await panel.page.getByRole('heading', { name: 'What is taken for granted' }).scrollIntoViewIfNeeded();
      await panel.picture(`holds-${name}-later-${theme.name}`);
      expect(await panel.barriers()).toEqual([]);
    }
    expect(panel.problems).toEqual([]);
  });

  test('to a checklist', async () => {
    const panel = await openPanel({ view: 'checklist', theme });
    await panel.say(checklistShow(standard, ['break is star']));
    await panel.page.getByRole('heading', { name: 'Steps' }).waitFor();
    await panel.picture(`checklist-${theme.name}`);
    expect(await panel.barriers()).toEqual([]);
    expect(panel.problems).toEqual([]);
  });
});

test('forced colours keep bars and regions apart', async () => {
  const panel = await openPanel({ view: 'timeline', theme: lightTheme });
  await panel.page.emulateMedia({ forcedColors: 'active' });
  await panel.say(timelineShow(draft, {}));
  await panel.page.locator('[data-step="draw"]').waitFor();
  await panel.picture('timeline-forced-colours');
  const looks = await panel.page.evaluate<readonly string[]>(`['hands-on', 'least', 'most'].map((kind) => {
    const { backgroundColor, backgroundImage, borderTopStyle } = getComputedStyle(document.querySelector('.stretch.' + kind));
    return [backgroundColor, backgroundImage, borderTopStyle].join(' ');
  })`);
  expect(new Set(looks).size).toBe(3);
  expect(looks[1]).toContain('repeating-linear-gradient');
});

test.each([380, 560, 760, 1300])('nothing is cut off at a width of %i pixels', async (width) => {
  const panel = await openPanel({ view: 'timeline', theme: lightTheme, width });
  await panel.say(timelineShow(standard, { 'glass-temperature': 281.15 }));
  await panel.page.locator('[data-step="long-draw"]').waitFor();
  await panel.picture(`timeline-${width}`);
  expect(await panel.page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  const ticks = await panel.page.evaluate<readonly (readonly [number, number])[]>(
    "[...document.querySelectorAll('.tick')].map((tick) => tick.getBoundingClientRect()).map(({ left, right }) => [left, right])",
  );
  for (const [index, [left]] of ticks.entries()) expect(left).toBeGreaterThan(ticks[index - 1]?.[1] ?? 0);
});

test.each([380, 760, 1300])('holds have room at a width of %i pixels', async (width) => {
  const panel = await openPanel({ view: 'holds', theme: lightTheme, width });
  await panel.say(holdsShow(standard, {}));
  await panel.page.locator('.holds-chart').waitFor();
  await expect
    .poll(() => panel.page.evaluate("document.querySelector('.holds-chart svg').getBoundingClientRect().width"))
    .toBeGreaterThan(Math.min(width, 900) * 0.8);
  await panel.picture(`holds-${width}`);
  expect(await panel.page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  const marks = await panel.page.evaluate<readonly (readonly [number, number])[]>(
    "[...document.querySelectorAll('.mark[text-anchor=middle]')].map((mark) => mark.getBoundingClientRect()).map(({ left, right }) => [left, right])",
  );
  expect(marks.length).toBeGreaterThan(2);
  for (const [index, [left]] of marks.entries()) expect(left).toBeGreaterThan(marks[index - 1]?.[1] ?? 0);
});

test('forced colours keep the lines of resins apart', async () => {
  const panel = await openPanel({ view: 'holds', theme: lightTheme });
  await panel.page.emulateMedia({ forcedColors: 'active' });
  await panel.say(holdsShow(standard, {}));
  await panel.page.locator('.holds-chart').waitFor();
  await panel.picture('holds-forced-colours');
  const dashes = await panel.page.evaluate<readonly string[]>(
    "[...document.querySelectorAll('.holds-chart .need path')].map((path) => getComputedStyle(path).strokeDasharray)",
  );
  expect(new Set(dashes).size).toBe(2);
});
