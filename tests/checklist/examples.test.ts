import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { type Checklist, checklistToHtml, checklistToJson, checklistToMarkdown } from '@quarrel/checklist';
import { parseTest, readSheets, type SheetText } from '@quarrel/language';
import type { Procedure } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { compiled, expectValid } from './compiled.js';
import { expectGolden } from './golden.js';

/** The procedures of a sheet under `examples/`. */
async function proceduresOf(path: string): Promise<readonly Procedure[]> {
  const uri = new URL(`../../examples/${path}`, import.meta.url).href;
  const read = async (address: string): Promise<SheetText> => {
    if (!address.startsWith('file:')) return { kind: 'missing' };
    return { kind: 'text', text: await readFile(fileURLToPath(address), 'utf8') };
  };
  const { sheets } = await readSheets([uri], { read });
  return sheets.flatMap((sheet) => sheet.procedures);
}

async function procedureOf(path: string): Promise<Procedure> {
  const [procedure] = await proceduresOf(path);
  if (procedure === undefined) throw new Error(`${path} holds no procedure`);
  return procedure;
}

function compiledFor(procedure: Procedure, ...suppose: readonly string[]): Checklist {
  const tests = suppose.map((text) => {
    const { test: parsed, problems } = parseTest(text, procedure.vocabulary);
    expect(problems).toEqual([]);
    return parsed;
  });
  return compiled(procedure, { suppose: tests });
}

describe('the stone-chip standard', async () => {
  const stoneChip = await procedureOf('school/stone-chip.quarrel');
  const ids = (checklist: Checklist) => checklist.steps.map(({ id }) => id);

  test('for a warm star on a dry, clean windshield', () => {
    const checklist = compiledFor(
      stoneChip,
      'break is star',
      'glass-temperature is 20 °C',
      'moisture is dry',
      'dirt is clean',
      'crushed-glass is none',
    );
    expect(ids(checklist)).toContain('first-press');
    for (const id of ['dry-out', 'warm-up', 'cool-down', 'first-press-cold']) expect(ids(checklist)).not.toContain(id);
    expect(checklist.steps.find(({ id }) => id === 'load')?.resin).toBe('thin');
    expect(checklist.kit.things.filter(({ kind }) => kind === 'resin').map(({ name }) => name)).toContain('thin');
    expect(checklist.kit.things.map(({ name }) => name)).not.toContain('medium');
    expectGolden('stone-chip-warm-star.md', checklistToMarkdown(checklist));
  });

  test('for a cold bullseye', () => {
    const checklist = compiledFor(
      stoneChip,
      'break is bullseye',
      'glass-temperature from 5 °C to 8 °C',
      'moisture is dry',
      'dirt is clean',
    );
    expect(ids(checklist)).toContain('warm-up');
    for (const id of ['dry-out', 'cool-down', 'flex-the-legs']) expect(ids(checklist)).not.toContain(id);
    expect(checklist.kit.things.map(({ name }) => name)).not.toContain('blower');
    // What was supposed of the glass temperature holds until it is read again, after warming: then the work can go on to its end.
    expect(checklist.total?.least).toBeGreaterThan(0);
    expect(checklist.steps.map(({ id }) => id)).toContain('load');
  });

  test('for every job it covers', () => {
    const checklist = compiledFor(stoneChip);
    expect(checklist.steps.length).toBeGreaterThan(45);
    expect(checklist.steps.find(({ id }) => id === 'flex-the-legs')?.during).toBe('long-draw');
    expect(checklist.total?.most).toBeDefined();
  });
});

describe.each([
  'school/stone-chip.quarrel',
  'school/surface-pit.quarrel',
  'other-trades/short-crack.quarrel',
  'other-trades/headlamp-lens.quarrel',
  'other-trades/composite-patch.quarrel',
  'draft/faulty-draft.quarrel',
])('%s', async (path) => {
  const procedures = await proceduresOf(path);

  test('compiles into valid JSON, Markdown and a page, whatever its faults', () => {
    expect(procedures).not.toEqual([]);
    for (const procedure of procedures) {
      const checklist = compiled(procedure, { draft: true });
      expectValid(JSON.parse(checklistToJson(checklist)));
      expect(checklistToMarkdown(checklist)).not.toMatch(/undefined|NaN|Infinity|\[object/);
      expect(checklistToHtml(checklist)).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }
  });
});
