import { expect } from 'vitest';
import { barriers, panel } from './vscode/panels.js';
import { command, cursor, goToText, lineOf, openSheet, patience, reloadWindow } from './vscode/text.js';
import { inWindow, picture, themes } from './vscode/window.js';

const draft = 'draft/faulty-draft.quarrel';

for (const [kind, theme] of Object.entries(themes)) {
  inWindow(
    `${kind}: a hold under pressure shows what resin is estimated to need, as a picture too`,
    async (window) => {
      await openSheet(window, draft);
      await goToText(window, draft, 'hold 2 min to 1 min');
      const shown = window.page.locator('.monaco-hover-content img[src^="data:image/svg+xml"]').first();
      // Hints that arrive late close what is open, and a key can come too early: it is asked for until it is there.
      const asked = async (): Promise<boolean> => {
        await window.page.keyboard.press('Control+k');
        await window.page.keyboard.press('Control+i');
        return shown.waitFor({ timeout: 5_000 }).then(
          () => true,
          () => false,
        );
      };
      await expect.poll(asked, patience).toBe(true);
      expect(await shown.getAttribute('alt')).toContain('They cross at 20.77 °C.');
      const width = (): Promise<number> => shown.evaluate((image) => image.naturalWidth);
      await expect.poll(width, patience).toBeGreaterThan(300);
      await shown.evaluate((image) => image.scrollIntoView());
      expect(await window.page.locator('.monaco-hover-content').allInnerTexts()).toEqual(
        expect.arrayContaining([expect.stringContaining('too short below 20.77 °C')]),
      );
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
  await reloadWindow(window);
  const again = await panel(window, 'holds');
  await expect.poll(() => again.locator('.holds-chart .band').count(), patience).toBe(1);
});
