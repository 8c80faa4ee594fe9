import { expect, test } from 'vitest';
import { checklistShow } from './answers.js';
import { openPanel, type PanelPage, withBrowser } from './panel.js';
import { exampleIn } from './shown.js';
import { lightTheme } from './themes.js';

withBrowser();

const standard = await exampleIn('school/stone-chip.quarrel');
const star = checklistShow(standard, ['break is star']);

async function checklist(): Promise<PanelPage> {
  const panel = await openPanel({ view: 'checklist', theme: lightTheme });
  await panel.say(star);
  await panel.page.getByRole('heading', { name: 'Steps' }).waitFor();
  return panel;
}

test('the preview is the page that would be written, in its own style', async () => {
  const { page, problems } = await checklist();
  await page.getByText('Draw vacuum again; this is the one that counts').waitFor();
  await page.getByText('Made for: break is star').waitFor();
  const hold = page.locator('.page .hold').first();
  expect(
    await hold.evaluate(
      "getComputedStyle(document.querySelector('.page').shadowRoot.querySelector('.hold')).borderTopStyle",
    ),
  ).toBe('solid');
  expect(problems).toEqual([]);
});

test('a new version keeps the place where one reads, and so does a reload', async () => {
  const { page, say, reload } = await checklist();
  await page.evaluate('window.scrollTo(0, 2000)');
  await expect.poll(() => page.evaluate("JSON.parse(sessionStorage.getItem('state')).scroll")).toBe(2000);
  const { answer } = star;
  if (answer.kind !== 'checklist') throw new Error('no checklist');
  await say({ ...star, answer: { ...answer, text: answer.text.replaceAll('Draw vacuum', 'Pull vacuum') } });
  await page.getByText('Pull vacuum again').waitFor();
  expect(await page.evaluate('window.scrollY')).toBe(2000);
  await reload();
  await say(star);
  await expect.poll(() => page.evaluate('window.scrollY')).toBe(2000);
});

test('it can be had for every job, and says so where it is only a draft', async () => {
  const { page, say, told } = await checklist();
  await page.getByRole('button', { name: 'Show it for every job covered' }).click();
  expect((await told()).at(-1)).toEqual({ kind: 'checklist', suppose: [] });
  const { answer } = checklistShow(standard, []);
  if (answer.kind !== 'checklist') throw new Error('no checklist');
  await say({ ...star, suppose: [], answer: { ...answer, draft: true } });
  await page.getByText('Nobody should work from this.').waitFor();
  await page.getByText('Made for: every job the procedure covers').waitFor();
});

test('markup in a sheet stays text', async () => {
  const { page, say, problems } = await checklist();
  const label = '<img src="x" onerror="document.title = 1"><script>document.title = 2</script>';
  await say(checklistShow({ ...standard, procedure: { ...standard.procedure, label } }, []));
  await page.getByRole('heading', { name: label }).waitFor();
  expect(await page.title()).toBe('checklist');
  expect(problems).toEqual([]);
});
