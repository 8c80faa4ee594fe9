import type { Locator } from 'playwright-core';
import { expect } from 'vitest';
import { patience } from './text.js';
import type { Window } from './window.js';

// What pops up beside the text.

/** What the editor says about what stands at the cursor; what says so stays open. */
export async function hover(window: Window): Promise<string> {
  const { page } = window;
  const box = page.locator('[widgetid="editor.contrib.resizableContentHoverWidget"] .monaco-hover-content');
  await opened(window, ['Control+k', 'Control+i'], box.first());
  const told = async (): Promise<string> => (await box.allInnerTexts()).join('\n').replace('Loading...', '').trim();
  await expect.poll(told, patience).not.toBe('');
  return told();
}

/** Presses keys until what they open is there: a key can come too early, and hints that arrive late close what is open. */
async function opened({ page }: Window, keys: readonly string[], shown: Locator): Promise<void> {
  const attempt = async (): Promise<boolean> => {
    for (const key of keys) await page.keyboard.press(key);
    return shown.waitFor({ timeout: 5_000 }).then(
      () => true,
      () => false,
    );
  };
  await expect.poll(attempt, patience).toBe(true);
}

/** What the editor offers to write at the cursor, best first: as many rows as are in sight. */
export async function suggestions(window: Window): Promise<readonly string[]> {
  const { page } = window;
  const rows = page.locator('.suggest-widget.visible .monaco-list-row .label-name');
  await opened(window, ['Control+Space'], rows.first());
  return rows.allInnerTexts();
}

/** Takes the suggestion that is called `name`. */
export async function takeSuggestion({ page }: Window, name: string): Promise<void> {
  await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: name }).first().click();
  await page.locator('.suggest-widget.visible').waitFor({ state: 'hidden' });
}

const mends = '.action-widget .monaco-list-row.action';

/** The mends the editor offers at the cursor. */
export async function quickFixes(window: Window): Promise<readonly string[]> {
  const { page } = window;
  await opened(window, ['Control+.'], page.locator(mends).first());
  return (await page.locator(mends).allInnerTexts()).map((row) => row.trim());
}

/** Takes the mend, of those that are open, whose title holds `title`. */
export async function takeQuickFix({ page }: Window, title: string): Promise<void> {
  const mend = page.locator(mends, { hasText: title }).first();
  await mend.click();
  await mend.waitFor({ state: 'hidden' });
}

/** Gives what stands at the cursor another name, in every file that has it; the editor saves them all. */
export async function rename(window: Window, name: string): Promise<void> {
  const { page } = window;
  const box = page.locator('.rename-box input');
  await opened(window, ['F2'], box);
  await box.fill(name);
  await page.keyboard.press('Enter');
  await box.waitFor({ state: 'hidden' });
}

/** Asks to give what stands at the cursor another name, and gives the editor's reason why it will not. */
export async function renameRefused(window: Window): Promise<string> {
  const message = window.page.locator('.monaco-editor-overlaymessage .message');
  await opened(window, ['F2'], message);
  return (await message.textContent()) ?? '';
}
