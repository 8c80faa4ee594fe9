import { expect } from 'vitest';
import { commandChecks } from './vscode/command-line.js';
import {
  cursor,
  goTo,
  lineOf,
  openFile,
  openSheet,
  patience,
  replaceLine,
  save,
  savedText,
  title,
} from './vscode/text.js';
import { counted, followProblem, problems, showProblems } from './vscode/views.js';
import { quickFixes, takeQuickFix } from './vscode/widgets.js';
import { inWindow, picture } from './vscode/window.js';

const draft = 'draft/faulty-draft.quarrel';
const standard = 'school/stone-chip.quarrel';
const houseRules = 'school/house-rules.quarrel';

inWindow('the draft has the findings that the command gives', async (window) => {
  await openSheet(window, draft);
  const { errors, warnings, infos } = commandChecks(window);
  expect(errors).toBeGreaterThan(10);
  await expect.poll(() => counted(window), patience).toEqual({ errors, warnings });

  await showProblems(window);
  await expect
    .poll(() => problems(window), patience)
    .toContainEqual(expect.stringMatching(new RegExp(`^faulty-draft.quarrel ?draft ${errors + warnings + infos}$`)));
  await showProblems(window, 'gap-in-choice');
  await followProblem(window, 'gives no resin');
  await expect.poll(() => cursor(window), patience).toMatchObject({ line: lineOf(window, draft, 'choose resin fill') });
  await picture(window, 'findings');
});

inWindow('a finding goes when its fault is mended, and comes back with it', async (window) => {
  await openSheet(window, draft);
  await showProblems(window, 'hold-backwards');
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('[Ln 153,'));

  await openFile(window, draft);
  const line = lineOf(window, draft, 'hold 2 min to 1 min');
  const faulty = savedText(window, draft).split('\n')[line - 1] ?? '';
  await replaceLine(window, line, faulty.replace('2 min to 1 min', '1 min to 2 min'));
  await expect.poll(() => problems(window), patience).toEqual([]);

  await replaceLine(window, line, faulty);
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('hold-backwards'));
});

inWindow('a place that belongs to a finding opens where it stands', async (window) => {
  await openSheet(window, draft);
  await showProblems(window, 'cure-after-fill');
  const step = 'Look at the break from both sides and name it';
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining(step));

  await followProblem(window, step);
  await expect.poll(() => cursor(window), patience).toMatchObject({ line: lineOf(window, draft, step) });

  await followProblem(window, 'laminated-glass');
  await expect.poll(() => title(window), patience).toContain('laminated-glass');
  await picture(window, 'shipped-sheet');
});

inWindow('a sheet is checked again when a sheet it uses changes', async (window) => {
  await openSheet(window, standard);
  await showProblems(window, 'slow-cold-hold');
  await openFile(window, houseRules);
  const line = lineOf(window, houseRules, 'at least 1 min');
  const asked = savedText(window, houseRules).split('\n')[line - 1] ?? '';
  await replaceLine(window, line, asked.replace('at least 1 min', 'at least 1 h'));
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('stone-chip.quarrel'));
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('slow-cold-hold'));

  await replaceLine(window, line, asked);
  await expect.poll(() => problems(window), patience).toEqual([]);
});

inWindow('a broken line says so and leaves the findings of the others', async (window) => {
  await openSheet(window, draft);
  await expect.poll(() => counted(window), patience).toMatchObject({ errors: commandChecks(window).errors });
  await replaceLine(window, lineOf(window, draft, 'lamp dock'), 'lamp dock "Dock lamp" { irradiance');
  await showProblems(window, 'syntax');
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('[Ln 26,'));
  await showProblems(window, 'hold-backwards');
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('hold-backwards'));
});

inWindow('a quick fix mends', async (window) => {
  await openSheet(window, draft);
  await showProblems(window, 'hold-backwards');
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('hold-backwards'));
  await openFile(window, draft);
  const line = lineOf(window, draft, 'hold 2 min to 1 min');
  await goTo(window, line, (savedText(window, draft).split('\n')[line - 1] ?? '').indexOf('2 min to') + 1);
  expect(await quickFixes(window)).toContainEqual(expect.stringContaining('1 min to 2 min'));
  await picture(window, 'quick-fix');
  await takeQuickFix(window, '1 min to 2 min');
  await expect.poll(() => problems(window), patience).toEqual([]);
  await save(window);
  expect(savedText(window, draft).split('\n')[line - 1]).toContain('hold 1 min to 2 min');
});

inWindow('a finding can be waived, and the reason is what one types next', async (window) => {
  await openSheet(window, draft);
  await showProblems(window, 'no-second-flex');
  await expect.poll(() => problems(window), patience).toContainEqual(expect.stringContaining('no-second-flex'));
  await openFile(window, draft);
  const line = lineOf(window, draft, 'step settle-legs');
  await goTo(window, line, (savedText(window, draft).split('\n')[line - 1] ?? '').indexOf('flex;') + 1);
  expect(await quickFixes(window)).toContainEqual(expect.stringContaining('Waive no-second-flex'));
  await takeQuickFix(window, 'Waive no-second-flex');
  await window.page.keyboard.type('Asked for by the maker.');
  await expect.poll(() => problems(window), patience).toEqual([]);
  await save(window);
  expect(savedText(window, draft)).toContain('waive no-second-flex because "Asked for by the maker."');
});
