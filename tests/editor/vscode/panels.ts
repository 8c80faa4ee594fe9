import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Frame } from 'playwright-core';
import { expect } from 'vitest';
import { patience } from './text.js';
import type { Window } from './window.js';

/** The page inside the panel whose tab is called `title`: a webview is a frame in a frame. */
export async function panel(window: Window, title: string): Promise<Frame> {
  await window.page.locator('.tab', { hasText: title }).first().waitFor();
  let found: Frame | undefined;
  await expect
    .poll(async () => {
      found = await frameWith(window, title);
      return found !== undefined;
    }, patience)
    .toBe(true);
  if (!found) throw new Error(`There is no panel ${title}`);
  return found;
}

/** Panels tell themselves apart by the title of their page. */
async function frameWith({ page }: Window, title: string): Promise<Frame | undefined> {
  for (const frame of page.frames()) {
    if (frame.parentFrame()?.parentFrame() === null) continue;
    const called = await frame.title().catch(() => '');
    if (called.includes(title)) return frame;
  }
  return undefined;
}

/** What axe finds in a panel that hinders people seriously: one line for each, empty where there is nothing. */
export async function barriers(frame: Frame): Promise<readonly string[]> {
  await frame.evaluate(readFileSync(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8'));
  const found: unknown = await frame.evaluate(
    `axe.run().then(({ violations }) => violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, help, nodes }) => id + ': ' + help + ' (' + nodes.map(({ html }) => html).join(' ') + ')'))`,
  );
  if (!Array.isArray(found)) throw new Error('axe gave no list');
  return found.map(String);
}
