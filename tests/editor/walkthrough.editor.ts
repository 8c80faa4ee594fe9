import { expect } from 'vitest';
import { command, openSheet, patience } from './vscode/text.js';
import { inWindow, picture } from './vscode/window.js';

inWindow('the walkthrough opens with its five steps, and a step does what it says', async (window) => {
  const { page } = window;
  await openSheet(window, 'school/stone-chip.quarrel');
  await command(window, 'Quarrel: Open Walkthrough');
  const steps = page.locator('.gettingStartedContainer .getting-started-step');
  await expect.poll(() => steps.count(), patience).toBe(5);
  await expect.poll(() => steps.first().textContent(), patience).toContain('Begin with a small procedure');
  const drawing = page.frameLocator('.getting-started-media iframe').frameLocator('iframe').locator('svg');
  await drawing.waitFor();
  await picture(window, 'walkthrough');

  await page.locator('.getting-started-step.expanded .monaco-button', { hasText: 'New procedure' }).click();
  await page.locator('.quick-input-widget').waitFor();
});
