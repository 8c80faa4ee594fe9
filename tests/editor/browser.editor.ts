import { expect } from 'vitest';
import { commandChecks } from './vscode/command-line.js';
import { panel } from './vscode/panels.js';
import { command, lineOf, openFile, openSheet, patience, replaceLine, savedText } from './vscode/text.js';
import { counted, problems, showProblems } from './vscode/views.js';
import { inWindow } from './vscode/window.js';

// The client for browsers, with the server as a worker that asks it for files.

const draft = 'draft/faulty-draft.quarrel';
const wish = { host: 'browser' } as const;

inWindow(
  'in a browser, a folder has the findings that the command gives, and they follow the text',
  async (window) => {
    await openSheet(window, draft);
    const { errors, warnings } = commandChecks(window);
    await expect.poll(() => counted(window), patience).toEqual({ errors, warnings });

    await showProblems(window, 'hold-backwards');
    await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('hold-backwards'));
    await openFile(window, draft);
    const line = lineOf(window, draft, 'hold 2 min to 1 min');
    const faulty = savedText(window, draft).split('\n')[line - 1] ?? '';
    await replaceLine(window, line, faulty.replace('2 min to 1 min', '1 min to 2 min'));
    await expect.poll(() => problems(window), patience).toEqual([]);
  },
  wish,
);

inWindow(
  'in a browser, pictures are drawn and what ships can be read',
  async (window) => {
    await openSheet(window, 'school/stone-chip.quarrel');
    await command(window, 'Quarrel: Open Timeline');
    const timeline = await panel(window, 'timeline');
    await expect.poll(() => timeline.locator('[data-step]').count(), patience).toBeGreaterThan(10);
    await openFile(window, 'school/stone-chip.quarrel');
    await window.page.locator('.view-line', { hasText: 'quarrel:laminated-glass' }).locator('span').last().click();
    await window.page.keyboard.press('F12');
    await expect
      .poll(() => window.page.locator('.editor-group-container.active .tab.active').textContent(), patience)
      .toContain('laminated-glass');
  },
  wish,
);
