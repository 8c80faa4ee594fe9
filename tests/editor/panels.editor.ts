import type { Frame } from 'playwright-core';
import { expect } from 'vitest';
import { commandCompiles } from './vscode/command-line.js';
import { barriers, panel } from './vscode/panels.js';
import {
  command,
  cursor,
  focusText,
  goToText,
  lineOf,
  openSheet,
  patience,
  reloadWindow,
  replaceLine,
} from './vscode/text.js';
import { inWindow, picture, themes, type Window } from './vscode/window.js';

const standard = 'school/stone-chip.quarrel';

for (const [kind, theme] of Object.entries(themes)) {
  const wish = { settings: { 'workbench.colorTheme': theme } };

  const timelineShows = async (window: Window): Promise<void> => {
    await openWide(window);
    await command(window, 'Quarrel: Open Timeline');
    const timeline = await panel(window, 'timeline');
    await pickColdStar(timeline);
    expect(await barriers(timeline)).toBe('');

    await timeline.locator('[data-step="long-draw"]').click();
    await expect
      .poll(() => cursor(window), patience)
      .toMatchObject({ line: lineOf(window, standard, 'step long-draw') });

    await focusText(window);
    await goToText(window, standard, 'do inspect-outside');
    const current = timeline.locator('[aria-current="step"]');
    await expect.poll(() => current.getAttribute('data-step'), patience).toBe('from-outside');
    await picture(window, `timeline-${kind}`);

    const drawn = { steps: await stepsOf(timeline), head: await timeline.locator('.head').textContent() };
    await timeline.getByRole('button', { name: 'Show the checklist for this situation' }).click();
    const checklist = await panel(window, 'checklist');
    const suppose = await supposed(checklist);
    expect(suppose).toContain('break is star');
    const { steps, total } = commandCompiles(window, 'stone-chip', suppose);
    expect(drawn.steps).toEqual(steps.map(({ id }) => id));
    expect(drawn.head).toContain(`${inWords(total.least)} to ${inWords(total.most)}`);
    for (const { text } of steps) expect(await checklist.getByText(text).count()).toBeGreaterThan(0);
    expect(await barriers(checklist)).toBe('');
    await picture(window, `checklist-${kind}`);
  };

  const coverageShows = async (window: Window): Promise<void> => {
    await openWide(window);
    await command(window, 'Quarrel: Open Coverage');
    const coverage = await panel(window, 'coverage');
    await coverage.getByLabel('Across').selectOption('break');
    await coverage.getByLabel('Down').selectOption('crushed-glass');
    const regions = coverage.getByRole('button', { name: / resin: .*crushed-glass/ });
    await expect.poll(() => regions.count(), patience).toBe(2);
    expect(await barriers(coverage)).toBe('');
    await picture(window, `coverage-${kind}`);

    const place = regions.filter({ hasText: 'medium' });
    expect(await place.getAttribute('aria-label')).toContain('break is bullseye, half-moon and crushed-glass is none');
    await place.click();
    const suppose = await supposed(await panel(window, 'checklist'));
    expect(suppose).toContain('crushed-glass is none');
    expect(suppose).toContainEqual(expect.stringMatching(/^break is (bullseye|half-moon)$/));
    const { steps } = commandCompiles(window, 'stone-chip', suppose);
    expect(steps.find(({ id }) => id === 'load')?.resin).toBe('medium');
  };

  inWindow(`${kind}: the timeline draws a situation, leads to its steps and follows the cursor`, timelineShows, wish);
  inWindow(`${kind}: the coverage draws what is chosen where, and leads to a checklist`, coverageShows, wish);
}

inWindow(
  'a panel is drawn anew as the text changes, without beginning again, and comes back after a reload',
  async (window) => {
    await openWide(window);
    await command(window, 'Quarrel: Open Timeline');
    const timeline = await panel(window, 'timeline');
    await pickColdStar(timeline);
    const row = await timeline.locator('[data-step="first-draw"]').elementHandle();

    await focusText(window);
    await replaceLine(window, lineOf(window, standard, 'step first-draw'), '    step first-draw "Draw the air out" {');
    await expect
      .poll(() => timeline.locator('[data-step="first-draw"]').textContent(), patience)
      .toContain('Draw the air out');
    expect(await row?.textContent()).toContain('Draw the air out');

    await reloadWindow(window);
    const again = await panel(window, 'timeline');
    await expect.poll(() => stepsOf(again), patience).toContain('first-press-cold');
    expect(await again.getByRole('combobox', { name: 'Break type' }).inputValue()).toBe('star');
  },
);

/** Opens the standard with room beside it. */
async function openWide(window: Window): Promise<void> {
  await openSheet(window, standard);
  await command(window, 'View: Toggle Primary Side Bar Visibility');
}

async function pickColdStar(timeline: Frame): Promise<void> {
  await timeline.getByRole('combobox', { name: 'Break type' }).selectOption('star');
  await expect.poll(() => timeline.locator('[data-step="load"]').textContent(), patience).toContain('thin');
  const temperature = timeline.getByRole('spinbutton', { name: 'Glass temperature' });
  await temperature.fill('8');
  await temperature.press('Tab');
  await expect.poll(() => stepsOf(timeline), patience).toContain('first-press-cold');
}

function stepsOf(timeline: Frame): Promise<readonly string[]> {
  return timeline.locator('[data-step]').evaluateAll((rows) => rows.map((row) => row.getAttribute('data-step') ?? ''));
}

/** What the strip above the preview says that it supposes. */
async function supposed(checklist: Frame): Promise<readonly string[]> {
  const strip = (await checklist.locator('.strip p').first().textContent()) ?? '';
  return strip.slice(strip.indexOf(': ') + 2).split('; ');
}

/** A duration as it stands in the pictures: `1 h 49 min 5 s`. */
function inWords(duration: string): string {
  const [, hours, minutes, seconds] = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$/.exec(duration) ?? [];
  return [hours && `${hours} h`, minutes && `${minutes} min`, seconds && `${seconds} s`].filter(Boolean).join(' ');
}
