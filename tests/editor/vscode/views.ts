import { expect } from 'vitest';
import { command, patience } from './text.js';
import type { Window } from './window.js';

// What stands round the text: problems, outline, status bar.

/** Opens the problems view. */
export async function showProblems(window: Window): Promise<void> {
  await command(window, 'Problems: Focus on Problems View');
  await window.page.locator('.markers-panel').waitFor();
}

/** The rows of the problems view that are in sight: sheets, findings and, where unfolded, the steps that lead there. */
export async function problems({ page }: Window): Promise<readonly string[]> {
  const rows = await page.locator('.markers-panel .monaco-list-row').allInnerTexts();
  return rows.map((row) => row.replaceAll(/\s+/g, ' ').trim());
}

/** Unfolds a finding and clicks the row below it that says `row`. */
export async function followRelated({ page }: Window, finding: string, row: string): Promise<void> {
  const line = page.locator('.markers-panel .monaco-list-row', { hasText: finding }).first();
  await line.click();
  await page.keyboard.press('ArrowRight');
  await page.locator('.markers-panel .monaco-list-row .related-info', { hasText: row }).first().dblclick();
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
