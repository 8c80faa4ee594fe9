import { expect } from 'vitest';
import { editorOf, openFile, patience } from './vscode/text.js';
import { status } from './vscode/views.js';
import { inWindow, picture } from './vscode/window.js';

inWindow('a sheet opens in its language and in colours', async (window) => {
  await openFile(window, 'draft/faulty-draft.quarrel');
  await expect.poll(() => status(window), patience).toContain('Quarrel');

  const editor = editorOf(window, 'draft/faulty-draft.quarrel');
  const colour = async (text: string) =>
    (await editor.locator('.view-line span > span', { hasText: text }).first().getAttribute('class')) ?? '';
  await expect.poll(() => colour('Products of Quillhaven'), patience).not.toBe('mtk1');
  const kinds = await Promise.all(['resin', 'Products of Quillhaven', '"Quayside', '20'].map(colour));
  expect(new Set(kinds).size).toBe(kinds.length);
  await picture(window, 'sheet');
});
