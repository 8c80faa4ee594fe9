import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Locator } from 'playwright-core';
import { expect } from 'vitest';
import type { Window } from './window.js';

/** How long the editor may take to show what it was asked for, in milliseconds. */
export const patience = { timeout: 30_000, interval: 50 } as const;

/** Opens a file of the folder by its name; resolves when its text is there and has the cursor. */
export async function openFile(window: Window, path: string): Promise<void> {
  await pick(window, 'Control+p', path, basename(path));
  await editorOf(window, path).locator('.view-line').first().waitFor();
  await expect.poll(() => title(window), patience).toBe(basename(path));
}

/** Opens a sheet of the folder; resolves when the extension runs and has checked all sheets. */
export async function openSheet(window: Window, path: string): Promise<void> {
  await openFile(window, path);
  await checked(window);
}

/** Waits until the sheets have been checked. */
async function checked({ page }: Window): Promise<void> {
  const item = page.locator('.statusbar-item[id="quarrel.quarrel.quarrel.status"]');
  await item.waitFor();
  let said = '';
  const ask = async (): Promise<string> => {
    said = (await item.getAttribute('aria-label')) ?? '';
    return said;
  };
  await expect.poll(ask, patience).toMatch(/Checked: |Quarrel stopped/);
  expect(said).toContain('Checked: ');
}

/** Runs a command by its title, as a person does in the palette. */
export async function command(window: Window, title: string): Promise<void> {
  await pick(window, 'F1', `>${title}`, title);
}

/** Loads the window anew by the editor's own command, which writes down first what is to come back. */
export async function reloadWindow(window: Window): Promise<void> {
  const loaded = window.page.waitForEvent('load');
  await command(window, 'Developer: Reload Window');
  await loaded;
}

const box = '.quick-input-widget';

/** Opens the box at the top; a key that the editor was too busy to hear is pressed again. */
async function openBox({ page }: Window, key: string): Promise<void> {
  const opened = async (): Promise<boolean> => {
    await page.keyboard.press(key);
    return isThere(page.locator(box), 1_000);
  };
  await expect.poll(opened, patience).toBe(true);
}

/** Opens the box at the top, types into it and takes the row that says `row`; where none comes in time, it begins again. */
async function pick(window: Window, key: string, typed: string, row: string): Promise<void> {
  const widget = window.page.locator(box);
  const found = widget.locator('.monaco-list-row.focused', { hasText: row });
  const offered = async (): Promise<boolean> => {
    await openBox(window, key);
    await widget.locator('input.input').fill(typed);
    if (await isThere(found, 4_000)) return true;
    await window.page.keyboard.press('Escape');
    return false;
  };
  await expect.poll(offered, patience).toBe(true);
  await window.page.keyboard.press('Enter');
  // What is taken may open the next question in the same box.
  await found.waitFor({ state: 'hidden' });
}

function isThere(locator: Locator, timeout: number): Promise<boolean> {
  return locator.waitFor({ timeout }).then(
    () => true,
    () => false,
  );
}

/** Gives the keys to the text in the first column, whatever has them. */
export async function focusText({ page }: Window): Promise<void> {
  const focused = page.locator('.editor-group-container.active .monaco-editor.focused');
  // A panel that is being drawn can swallow the key.
  const attempt = async (): Promise<boolean> => {
    await page.keyboard.press('Control+1');
    return isThere(focused, 4_000);
  };
  await expect.poll(attempt, patience).toBe(true);
}

/** Puts the cursor on a line and column, both counted from 1, and scrolls there. */
export async function goTo(window: Window, line: number, column = 1): Promise<void> {
  await openBox(window, 'Control+g');
  const widget = window.page.locator(box);
  await widget.locator('input.input').fill(`:${line}:${column}`);
  await window.page.keyboard.press('Enter');
  await widget.waitFor({ state: 'hidden' });
  await expect.poll(() => cursor(window), patience).toEqual({ line, column });
}

/** Puts the cursor before the first place where `text` stands in the file as it is on disk. */
export async function goToText(window: Window, path: string, text: string): Promise<void> {
  const before = savedText(window, path).split(text);
  if (before.length < 2) throw new Error(`${path} has no «${text}»`);
  const lines = (before[0] ?? '').split('\n');
  await goTo(window, lines.length, (lines.at(-1) ?? '').length + 1);
}

/** Where the status bar says that the cursor is. */
export async function cursor({ page }: Window): Promise<{ line: number; column: number } | undefined> {
  const text = (await page.locator('#status\\.editor\\.selection').textContent()) ?? '';
  const found = /Ln (\d+), Col (\d+)/.exec(text);
  return found ? { line: Number(found[1]), column: Number(found[2]) } : undefined;
}

/** Types at the cursor, key by key. */
export async function type({ page }: Window, text: string): Promise<void> {
  await page.keyboard.type(text);
}

/** Replaces a whole line by a text that is put in at once. */
export async function replaceLine(window: Window, line: number, text: string): Promise<void> {
  const { page } = window;
  await goTo(window, line);
  await page.keyboard.press('Home');
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+End');
  await page.keyboard.insertText(text);
}

/** Saves the file that has the cursor; resolves when its tab shows no change any more. */
export async function save({ page }: Window): Promise<void> {
  await page.keyboard.press('Control+s');
  await page.locator('.tab.active:not(.dirty)').waitFor();
}

/** A file of the folder as it is on disk. */
export function savedText({ folder }: Window, path: string): string {
  return readFileSync(join(folder, path), 'utf8');
}

/** The number, from 1, of the first line on disk that holds `text`. */
export function lineOf(window: Window, path: string, text: string): number {
  const at = savedText(window, path)
    .split('\n')
    .findIndex((line) => line.includes(text));
  if (at < 0) throw new Error(`${path} has no line with «${text}»`);
  return at + 1;
}

/** The lines of a file that are in sight, hints included, spaces as spaces. */
export async function linesInSight(window: Window, path: string): Promise<readonly string[]> {
  const lines = await editorOf(window, path).locator('.view-line').allInnerTexts();
  return lines.map((line) => line.replaceAll('\u00a0', ' '));
}

/** The texts above the lines of a file that can be clicked. */
export async function lensesInSight(window: Window, path: string): Promise<readonly string[]> {
  const lenses = await editorOf(window, path).locator('.codelens-decoration').allInnerTexts();
  return lenses.map((text) => text.replaceAll('\u00a0', ' ').trim()).filter((text) => text !== '');
}

/** The editor that shows a file of the folder. */
export function editorOf({ page }: Window, path: string): Locator {
  return page.locator(`.editor-instance .monaco-editor[data-uri$="/${path}"]`).first();
}

/** The name in the tab that has the cursor. */
export async function title({ page }: Window): Promise<string> {
  return (await page.locator('.editor-group-container.active .tab.active').getAttribute('data-resource-name')) ?? '';
}
