import { expect } from 'vitest';
import { panel } from './vscode/panels.js';
import { command, openSheet, patience } from './vscode/text.js';
import { counted, status } from './vscode/views.js';
import { inWindow } from './vscode/window.js';

inWindow(
  'a folder that is not trusted is checked and drawn all the same',
  async (window) => {
    await openSheet(window, 'draft/faulty-draft.quarrel');
    expect(await status(window)).toContain('Restricted Mode');
    await expect.poll(async () => (await counted(window)).errors, patience).toBeGreaterThan(10);
    await command(window, 'Quarrel: Open Timeline');
    const timeline = await panel(window, 'timeline');
    await expect.poll(() => timeline.locator('[data-step]').count(), patience).toBeGreaterThan(10);
  },
  { trust: 'withheld' },
);
