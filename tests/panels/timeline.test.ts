import type { StepPart } from '@quarrel/pictures';
import { expect, test } from 'vitest';
import { stepsIn } from '../pictures/parts.js';
import { timelineShow } from './answers.js';
import { openPanel, type PanelPage, withBrowser } from './panel.js';
import { exampleIn, timelineIn } from './shown.js';
import { lightTheme } from './themes.js';

withBrowser();

const standard = await exampleIn('school/stone-chip.quarrel');
const draft = await exampleIn('draft/faulty-draft.quarrel');
const cold = timelineShow(standard, { 'glass-temperature': 281.15 });
const steps = stepsIn(timelineIn(cold).parts);

async function timeline(): Promise<PanelPage> {
  const panel = await openPanel({ view: 'timeline', theme: lightTheme });
  await panel.say(cold);
  await panel.page.locator('[data-step="long-draw"]').waitFor();
  return panel;
}

function stepNamed(id: string): StepPart {
  const step = steps.find((one) => one.id === id);
  if (step === undefined) throw new Error(`no step ${id}`);
  return step;
}

const focused = 'document.activeElement.dataset.step';

test('the timeline draws the steps of the model, in order, each with what is to be known of it', async () => {
  const { page } = await timeline();
  expect(await page.locator('h1').textContent()).toBe('Stone-chip repair');
  expect(await page.locator('.head').textContent()).toContain('26 min to 59 min 15 s');
  const drawn = await page.evaluate("[...document.querySelectorAll('[data-step]')].map((row) => row.dataset.step)");
  expect(drawn).toEqual(steps.map(({ id }) => id));
  const name =
    /^19 Draw vacuum again; this is the one that counts ?: starts between 14 min 40 s and 31 min 10 s, hold 1 min to 2 min, Small screw injector$/;
  await page.getByRole('button', { name }).waitFor({ timeout: 5_000 });
  expect(await page.getByRole('heading', { level: 2 }).allInnerTexts()).toEqual(
    expect.arrayContaining(['Make the place ready', 'Fill', 'Care for the tool', 'Where the work can stop']),
  );
});

test('bars stand where the clock says', async () => {
  const { page } = await timeline();
  const track = await page.locator('[data-step="warm-up"] .track').boundingBox();
  const least = await page.locator('[data-step="warm-up"] .stretch.least').boundingBox();
  const most = await page.locator('[data-step="warm-up"] .stretch.most').boundingBox();
  const end = 3600;
  const { start, hold } = stepNamed('warm-up');
  const pixels = (seconds: number): number => (seconds / end) * (track?.width ?? 0);
  expect((least?.x ?? 0) - (track?.x ?? 0)).toBeCloseTo(pixels(start.least), 0);
  expect(least?.width).toBeCloseTo(pixels(hold?.least ?? 0), 0);
  expect(most?.width).toBeCloseTo(pixels(hold?.most ?? 0), 0);
});

test('a click on a step, and Enter, lead to it in the text', async () => {
  const { page, told } = await timeline();
  await page.locator('[data-step="long-draw"]').click();
  expect((await told()).at(-1)).toEqual({ kind: 'reveal', range: stepNamed('long-draw').range });
  await page.locator('[data-step="seat"]').focus();
  await page.keyboard.press('Enter');
  expect((await told()).at(-1)).toEqual({ kind: 'reveal', range: stepNamed('seat').range });
});

test('the arrow keys lead from step to step, and the Tab key comes back to the same one', async () => {
  const { page } = await timeline();
  await page.locator('[data-step="look-around"]').focus();
  for (const [key, step] of [
    ['ArrowDown', steps[1]?.id],
    ['ArrowDown', steps[2]?.id],
    ['ArrowUp', steps[1]?.id],
    ['End', steps.at(-1)?.id],
    ['ArrowDown', steps.at(-1)?.id],
    ['Home', steps[0]?.id],
    ['ArrowDown', steps[1]?.id],
  ] as const) {
    await page.keyboard.press(key);
    expect(await page.evaluate(focused)).toBe(step);
  }
  await page.keyboard.press('Shift+Tab');
  expect(await page.evaluate(focused)).toBeUndefined();
  await page.keyboard.press('Tab');
  expect(await page.evaluate(focused)).toBe(steps[1]?.id);
});

test('the step that the cursor stands in is marked, and comes into sight', async () => {
  const { page, say } = await timeline();
  const { range } = stepNamed('pit-film');
  await say({ kind: 'cursor', uri: range.uri, line: range.start.line + 1 });
  await expect.poll(() => page.locator('[aria-current="step"]').getAttribute('data-step')).toBe('pit-film');
  await expect
    .poll(() => page.locator('[data-step="pit-film"]').boundingBox())
    .toSatisfy((box: { readonly y: number } | null) => box !== null && box.y >= 0 && box.y < 1100);
  await say({ kind: 'cursor', uri: 'file:///other.quarrel', line: range.start.line + 1 });
  await expect.poll(() => page.locator('[aria-current="step"]').count()).toBe(0);
});

test('picking a value asks for that situation, what was picked last in front', async () => {
  const { page, told } = await timeline();
  await page.getByLabel('Break type').selectOption('star');
  await page.getByRole('spinbutton', { name: 'Glass temperature' }).fill('12.5');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Glass temperature 10 °C' }).click();
  const asked = (await told()).filter(({ kind }) => kind === 'pick');
  expect(asked.map((message) => JSON.stringify(message))).toEqual([
    '{"kind":"pick","picked":{"break":"star"}}',
    '{"kind":"pick","picked":{"glass-temperature":285.65,"break":"star"}}',
    '{"kind":"pick","picked":{"glass-temperature":283.15,"break":"star"}}',
  ]);
});

test('what cannot be is said beside what was taken instead', async () => {
  const { page, say } = await timeline();
  await say(timelineShow(standard, { 'glass-temperature': 263.15 }));
  await page.getByText('Glass temperature: -10 °C is outside of what is covered here. The picture shows').waitFor();
});

test('the checklist of the situation is one click away', async () => {
  const { page, told } = await timeline();
  await page.getByRole('button', { name: 'Show the checklist for this situation' }).click();
  expect((await told()).at(-1)).toEqual({ kind: 'checklist', suppose: timelineIn(cold).situation.suppose });
});

test('findings stand at their steps and lead to their places', async () => {
  const { page, say, told } = await timeline();
  const show = timelineShow(draft, {});
  await say(show);
  const cure = stepsIn(timelineIn(show).parts).find(({ id }) => id === 'cure');
  const [first] = cure?.findings ?? [];
  if (first === undefined) throw new Error('the step has no finding');
  await page.locator('li.step:has(> [data-step="cure"]) .findings button').first().click();
  expect((await told()).at(-1)).toEqual({ kind: 'reveal', range: first.range });
  expect(await page.locator('[data-step="cure"] .sign').textContent()).toBe('×');
});

test('a sheet that cannot be shown leaves the last picture, and says so until it can', async () => {
  const { page, say, barriers, picture } = await timeline();
  await say({ ...cold, answer: { kind: 'nothing', reason: 'There is no procedure here.' } });
  await page.getByText('This is of the last version that could be shown. There is no procedure here.').waitFor();
  expect(await page.locator('[data-step]').count()).toBe(steps.length);
  await picture('timeline-stale');
  expect(await barriers()).toEqual([]);
  await say(cold);
  await expect.poll(() => page.getByText('This is of the last version').count()).toBe(0);
});

test('a new answer changes what is new and leaves the rest in place', async () => {
  const { page, say } = await timeline();
  await page.evaluate("document.querySelector('[data-step=seat]').mark = 'same'");
  await page.locator('[data-step="seat"]').focus();
  await say({ kind: 'busy' });
  await say(timelineShow(standard, { 'glass-temperature': 298.15 }));
  await expect.poll(() => page.locator('[data-step="warm-up"]').count()).toBe(0);
  expect(await page.evaluate("document.querySelector('[data-step=seat]').mark")).toBe('same');
  expect(await page.evaluate(focused)).toBe('seat');
});

test('a reload loses neither what was picked nor where one was', async () => {
  const { page, say, told, reload } = await timeline();
  await page.getByLabel('Break type').selectOption('star');
  await page.evaluate('window.scrollTo(0, 1234)');
  await expect.poll(() => page.evaluate("JSON.parse(sessionStorage.getItem('state')).scroll")).toBe(1234);
  await reload();
  const state = {
    picked: { break: 'star' },
    question: { fixed: {} },
    suppose: [],
    scroll: 1234,
    address: cold.address,
  };
  await expect.poll(told).toEqual([{ kind: 'ready', state }]);
  await say(cold);
  await expect.poll(() => page.evaluate('window.scrollY')).toBe(1234);
});

test('another sheet begins with nothing picked', async () => {
  const { page, say, told } = await timeline();
  await page.getByLabel('Break type').selectOption('star');
  await say(timelineShow(draft, {}));
  await page.getByRole('heading', { name: 'Quayside' }).waitFor();
  await page.getByLabel('Moisture in the break').selectOption('damp');
  expect((await told()).at(-1)).toEqual({ kind: 'pick', picked: { moisture: 'damp' } });
});

test('the page speaks Spanish where the editor does', async () => {
  const panel = await openPanel({ view: 'timeline', theme: lightTheme, language: 'es-MX' });
  await panel.say(cold);
  await panel.page.getByText('De principio a fin: 26 min a 59 min 15 s').waitFor();
  await panel.page.getByRole('button', { name: 'Mostrar la lista de control de esta situación' }).waitFor();
});

test('what is being typed stays while an answer arrives, and is taken when it is finished', async () => {
  const { page, say, told } = await timeline();
  const input = page.getByRole('spinbutton', { name: 'Glass temperature' });
  await input.focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('1');
  await say(cold);
  await page.keyboard.type('2');
  expect(await input.inputValue()).toBe('12');
  await page.keyboard.press('Enter');
  const picked = (await told()).filter(({ kind }) => kind === 'pick');
  expect(picked).toMatchObject([{ picked: { 'glass-temperature': 285.15 } }]);
});
