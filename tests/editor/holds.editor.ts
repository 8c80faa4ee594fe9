import { expect } from 'vitest';
import { barriers, panel } from './vscode/panels.js';
import { command, cursor, goToText, lineOf, openSheet, patience } from './vscode/text.js';
import { hover } from './vscode/widgets.js';
import { inWindow, picture, themes } from './vscode/window.js';

const draft = 'draft/faulty-draft.quarrel';

for (const [kind, theme] of Object.entries(themes)) {
  inWindow(
    `${kind}: a hold under pressure shows what resin is estimated to need, as a picture too`,
    async (window) => {
      await openSheet(window, draft);
      await goToText(window, draft, 'hold 2 min to 1 min');
      expect(await hover(window)).toContain('too short below 20.77 °C');
      const shown = '.monaco-hover-content img[src^="data:image/svg+xml"]';
      await window.page.locator(shown).first().scrollIntoViewIfNeeded();
      const width = (): Promise<number> => window.page.evaluate(`document.querySelector('${shown}').naturalWidth`);
      await expect.poll(width, patience).toBeGreaterThan(300);
      const alt = await window.page.locator(shown).first().getAttribute('alt');
      expect(alt).toContain('Time needed against Glass temperature');
      await picture(window, `hold-hover-${kind}`);
    },
    { settings: { 'workbench.colorTheme': theme } },
  );
}

inWindow('the panel of holds leads to the step whose hold turns too short', async (window) => {
  await openSheet(window, draft);
  await command(window, 'Quarrel: Open Holds Against Temperature');
  const holds = await panel(window, 'holds');
  await holds.getByRole('button', { name: /^Below 20.77 °C/ }).click();
  await expect.poll(() => cursor(window), patience).toMatchObject({ line: lineOf(window, draft, 'step press-again') });
  expect(await barriers(holds)).toBe('');
  await picture(window, 'holds-panel');

  await holds.getByLabel('Steps').selectOption('press-cone');
  await expect.poll(() => holds.locator('.holds-chart .band').count(), patience).toBe(1);
  await window.page.reload();
  const again = await panel(window, 'holds');
  await expect.poll(() => again.locator('.holds-chart .band').count(), patience).toBe(1);
});
