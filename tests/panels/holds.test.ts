import { expect, test } from 'vitest';
import { holdsShow } from './answers.js';
import { openPanel, type PanelPage, withBrowser } from './panel.js';
import { exampleIn, holdsIn } from './shown.js';
import { lightTheme } from './themes.js';

withBrowser();

const draft = await exampleIn('draft/faulty-draft.quarrel');
const shown = holdsShow(draft, {});
const holds = holdsIn(shown);
const { scales } = holds;

async function panelOf(language = 'en'): Promise<PanelPage> {
  const panel = await openPanel({ view: 'holds', theme: lightTheme, language });
  await panel.say(shown);
  await panel.page.locator('.holds-chart').waitFor();
  return panel;
}

/** What the paths of a selector are made of: pairs of pixels. */
async function waysOf({ page }: PanelPage, selector: string): Promise<readonly (readonly [number, number])[][]> {
  const ways = await page.evaluate<readonly string[]>(
    `[...document.querySelectorAll('${selector}')].map((path) => path.getAttribute('d'))`,
  );
  return ways.map((way) =>
    way
      .slice(1)
      .split('L')
      .map((pair) => {
        const [x, y] = pair.split(' ').map(Number);
        return [x ?? Number.NaN, y ?? Number.NaN] as const;
      }),
  );
}

test('lines lie where temperature and time say, on a logarithmic scale', async () => {
  const panel = await panelOf();
  await expect
    .poll(() => panel.page.evaluate("document.querySelector('.holds-chart svg').getBoundingClientRect().width"))
    .toBeGreaterThan(600);
  const marks = await panel.page.evaluate<readonly (readonly [string, number, number])[]>(
    "[...document.querySelectorAll('.mark')].map((mark) => [mark.textContent, Number(mark.getAttribute('x')), Number(mark.getAttribute('y'))])",
  );
  const at = (text: string): readonly [number, number] => {
    const found = marks.find(([words]) => words === text);
    if (found === undefined) throw new Error(`no mark ${text}`);
    return [found[1], found[2] - 4];
  };
  const [x5, x35] = [at('5 °C')[0], at('35 °C')[0]];
  const [y10, y60] = [at('10 s')[1], at('1 min')[1]];
  const across = (kelvin: number): number => x5 + ((kelvin - 278.15) / 30) * (x35 - x5);
  const up = (seconds: number): number => y10 + (Math.log(seconds / 10) / Math.log(6)) * (y60 - y10);
  const drawn = await waysOf(panel, '.holds-chart .need path');
  const parts = holds.needs.flatMap((need) => need.parts);
  expect(drawn.length).toBe(parts.length);
  for (const [index, { points }] of parts.entries()) {
    for (const [place, { temperature, seconds }] of points.entries()) {
      const [x, y] = drawn[index]?.[place] ?? [Number.NaN, Number.NaN];
      expect(x).toBeCloseTo(across(temperature), 0);
      expect(y).toBeCloseTo(up(seconds), 0);
    }
  }
  const ring = await panel.page.evaluate<readonly number[]>(
    "[...document.querySelectorAll('.turn circle')].map((ring) => Number(ring.getAttribute('cx')))",
  );
  const turns = holds.presses.flatMap(({ against }) =>
    against.flatMap(({ turn, short }) => (short === 'below' && turn?.isExact ? [turn.at] : [])),
  );
  expect(turns.length).toBeGreaterThan(1);
  expect(ring.map(Math.round)).toEqual(turns.map((turn) => Math.round(across(turn))));
});

test('a place where a hold turns too short leads to its step in the text, by click and by key', async () => {
  const { page, told } = await panelOf();
  const press = holds.presses.find(({ id }) => id === 'press-again');
  const turning = page.getByRole('button', { name: /^Below 20.77 °C: 2 C 2 min is shorter than Quayside thick resin/ });
  await turning.click();
  expect((await told()).at(-1)).toEqual({ kind: 'reveal', range: press?.range });
  await page.getByRole('button', { name: /^Below 6.66 °C/ }).focus();
  await page.keyboard.press('Enter');
  const legs = holds.presses.find(({ id }) => id === 'press-legs');
  expect((await told()).at(-1)).toEqual({ kind: 'reveal', range: legs?.range });
});

test('a table tells the needs at round temperatures, in a way that can be read aloud', async () => {
  const { page } = await panelOf();
  const heads = await page.getByRole('columnheader').allInnerTexts();
  expect(heads.slice(2)).toEqual(['5 °C', '10 °C', '15 °C', '20 °C', '25 °C', '30 °C', '35 °C']);
  const [thick] = await page.getByRole('row').filter({ hasText: 'Quayside thick resin' }).all();
  const cells = await thick?.getByRole('cell').allTextContents();
  expect(cells?.slice(1)).toEqual([
    '–no estimate',
    '–no estimate',
    '–no estimate',
    '2 min 5 s',
    '1 min 37 s',
    '1 min 15 s',
    '–no estimate',
  ]);
  await page.getByRole('img', { name: /^Time against Glass temperature, on a logarithmic scale: 4 lines/ }).waitFor();
  expect(scales.temperature.marks.length).toBe(7);
});

test('one step can be looked at, and is kept over a reload', async () => {
  const { page, say, told, reload } = await panelOf();
  await page.getByLabel('Steps').selectOption('press-cone');
  expect((await told()).at(-1)).toEqual({ kind: 'look', look: { step: 'press-cone' } });
  await say(holdsShow(draft, { step: 'press-cone' }));
  await page.getByText('No hold is shorter than the estimate, as far as the datasheets tell.').waitFor();
  expect(await page.locator('.holds-chart .band').count()).toBe(1);
  await reload();
  await expect.poll(told).toMatchObject([{ kind: 'ready', state: { look: { step: 'press-cone' } } }]);
});

test('the step that the cursor stands in is marked', async () => {
  const { page, say } = await panelOf();
  const range = holds.presses[2]?.range;
  await say({ kind: 'cursor', uri: range?.uri ?? '', line: (range?.start.line ?? 0) + 1 });
  await expect.poll(() => page.locator('[aria-current="step"]').textContent()).toContain('Press resin into the cone');
});

test('what is taken for granted stands there with its reason and leads to its line', async () => {
  const { page, told } = await panelOf();
  await page.getByRole('button', { name: /^Gap 5 µm when break is bullseye A cone stands open wider/ }).click();
  expect((await told()).at(-1)).toMatchObject({
    kind: 'reveal',
    range: { uri: 'quarrel:/laminated-glass-assumptions.quarrel' },
  });
});

test('the page speaks Spanish where the editor does', async () => {
  const { page } = await panelOf('es-MX');
  await page.getByText('Una estimación a partir de fichas técnicas y supuestos, nunca una instrucción.').waitFor();
  await page.getByRole('heading', { name: 'Dónde una espera se queda corta' }).waitFor();
});
