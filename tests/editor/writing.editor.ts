import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import {
  command,
  cursor,
  goToText,
  lensesInSight,
  lineOf,
  linesInSight,
  openFile,
  openSheet,
  patience,
  save,
  savedText,
  title,
  type,
} from './vscode/text.js';
import { outline } from './vscode/views.js';
import { hover, rename, renameRefused, suggestions, takeSuggestion } from './vscode/widgets.js';
import { inWindow, picture } from './vscode/window.js';

const draft = 'draft/faulty-draft.quarrel';
const standard = 'school/stone-chip.quarrel';
const equipment = 'school/equipment.quarrel';

const example = (path: string) =>
  readFileSync(fileURLToPath(new URL(`../../examples/${path}`, import.meta.url)), 'utf8');

inWindow('behind "do" it offers acts, those whose needs are met first, and writes the one taken', async (window) => {
  await openSheet(window, standard);
  await goToText(window, standard, 'draw-vacuum with small');
  const offered = await suggestions(window);
  expect(offered).toContain('assess');
  // It needs a filled break, and nothing is pressed in yet: among all acts by their names it would be in sight.
  expect(offered).not.toContain('cure');
  expect(offered).not.toContain('procedure');
  await picture(window, 'completion');
  await type(window, 'sha');
  await takeSuggestion(window, 'shade');
  await save(window);
  expect(savedText(window, standard)).toContain('do shade');
});

inWindow('it tells what an act needs and makes, where the pointer rests', async (window) => {
  await openSheet(window, standard);
  await goToText(window, standard, 'cure with bench');
  const told = await hover(window);
  expect(told).toContain('cavity');
  expect(told).toMatch(/needs/i);
  expect(told).toMatch(/makes/i);
  await picture(window, 'hover');
});

inWindow('a new name goes into every sheet that says the old one', async (window) => {
  await openSheet(window, equipment);
  await goToText(window, equipment, 'thin "Larkmoor');
  await rename(window, 'clear-thin');
  await expect.poll(() => savedText(window, equipment), patience).toContain('resin clear-thin "Larkmoor');
  await expect.poll(() => savedText(window, standard), patience).toContain('crushed-glass is some: clear-thin');
  expect(savedText(window, standard)).toBe(example(standard).replace('some: thin', 'some: clear-thin'));
});

inWindow('what ships keeps its name, and the editor says why', async (window) => {
  await openSheet(window, standard);
  await goToText(window, standard, 'draw-vacuum with small');
  expect(await renameRefused(window)).toMatch(/comes with Quarrel/);
});

inWindow('formatting puts a sheet into the house style and leaves its meaning', async (window) => {
  await openSheet(window, draft);
  await goToText(window, draft, '  revision "0.3"');
  await type(window, '      ');
  await goToText(window, draft, 'takes 1 min to 2 min');
  await type(window, '   ');
  await save(window);
  expect(savedText(window, draft)).not.toBe(example(draft));
  await command(window, 'Format Document');
  await expect
    .poll(async () => (await linesInSight(window, draft)).join('\n'), patience)
    .toContain('\n      takes 1 min');
  await save(window);
  expect(savedText(window, draft)).toBe(example(draft));
});

inWindow('above a procedure it says how long the work takes; behind a step, when it starts', async (window) => {
  await openSheet(window, standard);
  await goToText(window, standard, 'procedure stone-chip');
  await expect.poll(async () => (await lensesInSight(window, standard)).join('\n'), patience).toMatch(/\d+ min/);
  await goToText(window, standard, 'step first-draw');
  const line = async () => (await linesInSight(window, standard)).find((one) => one.includes('step first-draw')) ?? '';
  await expect.poll(line, patience).toMatch(/\d+ min/);
  await picture(window, 'lenses-and-hints');
});

inWindow('a name leads to where it is declared, and the outline to every stage', async (window) => {
  await openSheet(window, standard);
  await goToText(window, standard, 'bench\n      takes 10 s');
  await window.page.keyboard.press('F12');
  await expect.poll(() => title(window), patience).toBe('equipment.quarrel');
  await expect.poll(() => cursor(window), patience).toMatchObject({ line: lineOf(window, equipment, 'lamp bench') });
  await openFile(window, standard);
  await expect.poll(async () => (await outline(window)).join('\n'), patience).toContain('stone-chip');
});
