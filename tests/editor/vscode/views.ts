import { expect } from 'vitest';
import { command, patience } from './text.js';
import type { Window } from './window.js';

// What stands round the text: problems, outline, status bar.

/** Opens the problems view, and shows only what holds `filter` where that is given. */
export async function showProblems(window: Window, filter = ''): Promise<void> {
  await command(window, 'Problems: Focus on Problems View');
  await window.page.locator('.viewpane-filter input').fill(filter);
}

/** The rows of the problems view that are in sight: sheets, findings and the places that belong to them. */
export async function problems({ page }: Window): Promise<readonly string[]> {
  const rows = await page.locator('.markers-panel .monaco-list-row').allInnerTexts();
  return rows.map((row) => row.replaceAll(/\s+/g, ' ').trim());
}

/** Clicks the row of the problems view that holds `text`; the editor goes where it points. */
export async function followProblem({ page }: Window, text: string): Promise<void> {
  await page.locator('.markers-panel .monaco-list-row', { hasText: text }).first().dblclick();
}

/** How many errors and warnings the status bar counts, over all sheets. */
export async function counted({ page }: Window): Promise<{ errors: number; warnings: number }> {
  const text = (await page.locator('#status\\.problems').textContent()) ?? '';
  const [errors = Number.NaN, warnings = Number.NaN] = text.match(/\d+/g)?.map(Number) ?? [];
  return { errors, warnings };
}

/** The texts of the status bar. */
export async function status({ page }: Window): Promise<readonly string[]> {
  return (await page.locator('.statusbar-item').allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' ').trim());
}

/** The outline of the sheet that has the cursor, in order. */
export async function outline(window: Window): Promise<readonly string[]> {
  await command(window, 'Explorer: Focus on Outline View');
  const rows = window.page.locator('.outline-tree .monaco-list-row');
  await expect.poll(() => rows.count(), patience).toBeGreaterThan(0);
  return (await rows.allInnerTexts()).map((row) => row.replaceAll(/\s+/g, ' ').trim());
}
