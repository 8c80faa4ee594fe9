import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Frame } from 'playwright-core';
import { expect } from 'vitest';
import { patience } from './text.js';
import type { Window } from './window.js';

/** The panels, by the names their pages have. */
export type View = 'timeline' | 'coverage' | 'holds' | 'checklist';

/** The page of a panel: the innermost of the frames that the editor puts round it. Resolves when it draws something. */
export async function panel({ page }: Window, view: View): Promise<Frame> {
  let found: Frame | undefined;
  const find = async (): Promise<boolean> => {
    for (const frame of page.frames()) {
      const drawn = await frame
        .locator(`body[data-view="${view}"] > :not(script)`)
        .count()
        .catch(() => 0);
      if (drawn > 0) found = frame;
    }
    return found !== undefined;
  };
  await expect.poll(find, patience).toBe(true);
  if (!found) throw new Error(`There is no panel ${view}`);
  return found;
}

/** What axe finds in a panel that hinders people seriously: a line for each, empty where there is nothing. */
export async function barriers(frame: Frame): Promise<string> {
  await frame.evaluate(readFileSync(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8'));
  return frame.evaluate<string>(
    `axe.run().then(({ violations }) => violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, help, nodes }) => id + ': ' + help + ' (' + nodes.map(({ html }) => html).join(' ') + ')')
      .join('\\n'))`,
  );
}
