import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { commandWrites } from './vscode/command-line.js';
import { command, openSheet, patience, savedText, title } from './vscode/text.js';
import { showProblems } from './vscode/views.js';
import { inWindow, picture, type Window } from './vscode/window.js';

/** Answers the question that stands at the top of the window, once the editor has put in what it proposes. */
async function answer({ page }: Window, question: string, text: string): Promise<void> {
  const box = page.locator('.quick-input-widget', { hasText: question });
  const input = box.locator('input.input');
  await expect.poll(() => input.inputValue(), patience).not.toBe('');
  await input.fill(text);
  await page.keyboard.press('Enter');
}

inWindow('a new procedure is complete, has no findings, and writes over nothing', async (window) => {
  await openSheet(window, 'school/stone-chip.quarrel');
  await command(window, 'Quarrel: New Procedure…');
  await answer(window, 'What is the procedure called?', 'README');
  await answer(window, 'What do people call it?', 'First');
  await expect.poll(() => title(window), patience).toBe('README.quarrel');
  await command(window, 'Quarrel: New Procedure…');
  await answer(window, 'What is the procedure called?', 'README');
  await answer(window, 'There is already README.quarrel', 'winter-pit');
  await answer(window, 'What do people call it?', 'Pit in winter');
  await expect.poll(() => title(window), patience).toBe('winter-pit.quarrel');
  expect(savedText(window, 'winter-pit.quarrel')).toContain('procedure winter-pit "Pit in winter" {');
  expect(existsSync(join(window.folder, 'equipment.quarrel'))).toBe(true);
  await expect
    .poll(() => window.page.locator('.contentWidgets, .codelens-decoration').allInnerTexts(), patience)
    .toContainEqual(expect.stringContaining('no findings'));
});

inWindow('a checklist is saved as the command writes it', async (window) => {
  await openSheet(window, 'school/stone-chip.quarrel');
  await command(window, 'Quarrel: Compile Checklist…');
  const { page } = window;
  const row = (text: string) => page.locator('.quick-input-widget .monaco-list-row', { hasText: text }).first();
  await row('Break type').click();
  await row('Star').click();
  await row('For this situation').click();
  await row('A text to read').click();
  const dialog = page.locator('.quick-input-widget', { hasText: 'Save the checklist' });
  await expect.poll(() => dialog.locator('input.input').inputValue(), patience).toMatch(/-for-break-is-star\.md$/);
  await dialog.locator('input.input').fill(join(window.folder, 'star.md'));
  await row('README.md').waitFor();
  await dialog.getByRole('button', { name: 'OK' }).click();
  await page.locator('.notifications-toasts', { hasText: 'The checklist is in star.md' }).waitFor();
  expect(savedText(window, 'star.md')).toBe(
    commandWrites(window, 'school/stone-chip.quarrel', ['break is star'], 'md'),
  );
  expect(readdirSync(window.folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

inWindow(
  'the folder is checked in the terminal by the command that ships',
  async (window) => {
    await openSheet(window, 'draft/faulty-draft.quarrel');
    await command(window, 'Quarrel: Check Workspace in Terminal');
    const rows = window.page.locator('.terminal-wrapper .xterm-rows');
    await expect.poll(async () => (await rows.allInnerTexts()).join(' '), patience).toMatch(/Checked: \d+ procedures/);
    await picture(window, 'terminal');
  },
  // Drawn as text, so that it can be read here.
  { settings: { 'terminal.integrated.gpuAcceleration': 'off' } },
);

inWindow('the name of a finding opens the page of its rule', async (window) => {
  await openSheet(window, 'draft/faulty-draft.quarrel');
  await showProblems(window, 'hold-backwards');
  await window.page
    .locator('.markers-panel a', { hasText: 'hold-backwards' })
    .first()
    .click({ modifiers: ['ControlOrMeta'] });
  await expect
    .poll(() => window.page.locator('.editor-group-container.active .tab.active').textContent(), patience)
    .toContain('hold-backwards.md');
  const headings = async () => {
    const frames = window.page.frames().map((frame) => frame.locator('h1').allInnerTexts());
    return (await Promise.all(frames)).flat();
  };
  await expect.poll(headings, patience).toContain('hold-backwards');
  await picture(window, 'rule-page');
});
