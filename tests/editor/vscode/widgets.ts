import { expect } from 'vitest';
import { patience } from './text.js';
import type { Window } from './window.js';

// What pops up beside the text.

/** What the editor says about what stands at the cursor; what says so stays open. */
export async function hover({ page }: Window): Promise<string> {
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+i');
  const box = page.locator('[widgetid="editor.contrib.resizableContentHoverWidget"] .monaco-hover-content');
  const told = async (): Promise<string> => (await box.allInnerTexts()).join('\n').replace('Loading...', '').trim();
  await expect.poll(told, patience).not.toBe('');
  return told();
}

/** What the editor offers to write at the cursor, best first: as many rows as are in sight. */
export async function suggestions(window: Window): Promise<readonly string[]> {
  const { page } = window;
  await page.keyboard.press('Control+Space');
  const rows = page.locator('.suggest-widget.visible .monaco-list-row .label-name');
  await rows.first().waitFor();
  return rows.allInnerTexts();
}

/** Takes the suggestion that is called `name`. */
export async function takeSuggestion({ page }: Window, name: string): Promise<void> {
  await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: name }).first().click();
  await page.locator('.suggest-widget.visible').waitFor({ state: 'hidden' });
}

const mends = '.action-widget .monaco-list-row.action';

/** The mends the editor offers at the cursor. */
export async function quickFixes({ page }: Window): Promise<readonly string[]> {
  await page.keyboard.press('Control+.');
  await page.locator(mends).first().waitFor();
  return (await page.locator(mends).allInnerTexts()).map((row) => row.trim());
}

/** Takes the mend, of those that are open, whose title holds `title`. */
export async function takeQuickFix({ page }: Window, title: string): Promise<void> {
  const mend = page.locator(mends, { hasText: title }).first();
  await mend.click();
  await mend.waitFor({ state: 'hidden' });
}

/** Gives what stands at the cursor another name, in every file that has it; the editor saves them all. */
export async function rename({ page }: Window, name: string): Promise<void> {
  await page.keyboard.press('F2');
  const box = page.locator('.rename-box input');
  await box.fill(name);
  await page.keyboard.press('Enter');
  await box.waitFor({ state: 'hidden' });
}

/** Asks to give what stands at the cursor another name, and gives the editor's reason why it will not. */
export async function renameRefused({ page }: Window): Promise<string> {
  await page.keyboard.press('F2');
  const message = page.locator('.monaco-editor-overlaymessage .message');
  await message.waitFor();
  return (await message.textContent()) ?? '';
}
