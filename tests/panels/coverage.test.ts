import { expect, test } from 'vitest';
import type { FromPanel } from '../../packages/extension/src/panels/messages.js';
import { coverageShow } from './answers.js';
import { openPanel, type PanelPage, withBrowser } from './panel.js';
import { coverageIn, exampleIn } from './shown.js';
import { lightTheme } from './themes.js';

withBrowser();

const draft = await exampleIn('draft/faulty-draft.quarrel');
const question = { by: 'choice', across: 'glass-temperature', down: 'break', fixed: {} } as const;
const shown = coverageShow(draft, question);
const { regions } = coverageIn(shown);

async function coverage(): Promise<PanelPage> {
  const panel = await openPanel({ view: 'coverage', theme: lightTheme });
  await panel.say(shown);
  await panel.page.locator('.grid').waitFor();
  return panel;
}

test('the coverage draws the regions of the model, each with what comes out and where', async () => {
  const { page } = await coverage();
  expect(await page.locator('.grid .region').count()).toBe(regions.length);
  const inside = regions.filter(({ situation }) => situation !== undefined);
  const names = await page.evaluate<readonly string[]>(
    "[...document.querySelectorAll('button.region')].map((region) => region.getAttribute('aria-label'))",
  );
  expect(names.map((name) => name.slice(name.indexOf(': ') + 2))).toEqual(
    inside.map(({ circumstance }) => circumstance),
  );
  expect(names).toContain('Quayside thin resin: glass-temperature at least 12 °C and glass-temperature below 15 °C');
  expect(await page.locator('.label.column').allInnerTexts()).toEqual([
    'below 5 °C',
    '5 °C to below 12 °C',
    '12 °C to below 15 °C',
    '15 °C to below 18 °C',
    '18 °C to 35 °C',
    'above 35 °C',
  ]);
  expect(await page.locator('.label.line').allInnerTexts()).toEqual([
    'Bullseye',
    'Half-moon',
    'Star',
    'Combination',
    '3 other values',
  ]);
});

test('regions lie on the cells that they are of', async () => {
  const { page } = await coverage();
  const boxes = await page.evaluate<readonly (readonly number[])[]>(
    "[...document.querySelectorAll('.grid .region, .label.column')].map((one) => one.getBoundingClientRect()).map(({ left, right }) => [left, right])",
  );
  const [labels, cells] = [boxes.slice(0, 6), boxes.slice(6)];
  for (const [index, { left, width }] of regions.entries()) {
    expect(cells[index]?.[0]).toBeCloseTo(labels[left]?.[0] ?? 0, 0);
    expect(cells[index]?.[1]).toBeCloseTo(labels[left + width - 1]?.[1] ?? 0, 0);
  }
});

test('a region shows the checklist of a situation in it, by click and by key', async () => {
  const { page, told } = await coverage();
  const index = regions.filter(({ situation }) => situation !== undefined).findIndex(({ left }) => left === 2);
  const situation = regions.find(({ left, situation: inside }) => left === 2 && inside !== undefined)?.situation;
  await page.locator('button.region').nth(index).click();
  expect((await told()).at(-1)).toEqual({ kind: 'checklist', suppose: situation?.suppose });
  await page.locator('button.region').first().focus();
  await page.keyboard.press('Enter');
  expect((await told()).at(-1)).toMatchObject({ kind: 'checklist' });
});

test('what is laid out, what is shown and what is fixed can be asked for, and is kept over a reload', async () => {
  const { page, told, reload } = await coverage();
  const asked = async (): Promise<FromPanel | undefined> => (await told()).at(-1);
  await page.getByLabel('Across').selectOption('moisture');
  expect(await asked()).toEqual({ kind: 'ask', question: { across: 'moisture', down: 'break', fixed: {} } });
  await page.getByLabel('Down').selectOption('glass-temperature');
  expect(await asked()).toMatchObject({ question: { across: 'break', down: 'glass-temperature' } });
  await page.getByLabel('Show').selectOption('time');
  expect(await asked()).toMatchObject({ question: { by: 'time' } });
  await page.getByText('Other conditions').click();
  await page.getByLabel('Moisture in the break').selectOption('damp');
  await page.getByRole('spinbutton', { name: 'Size of the damage' }).fill('12');
  await page.keyboard.press('Enter');
  const fixed = { 'damage-size': 0.012, moisture: 'damp' };
  expect(await asked()).toMatchObject({ question: { fixed } });
  await page.getByLabel('Moisture in the break').selectOption('any');
  expect(await asked()).toMatchObject({ question: { fixed: { 'damage-size': 0.012 } } });
  const last = await asked();
  await reload();
  await expect
    .poll(told)
    .toMatchObject([{ kind: 'ready', state: { question: last?.kind === 'ask' ? last.question : {} } }]);
});
