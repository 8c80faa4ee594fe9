import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { checkSheets } from '@quarrel/checks';
import { readSheets } from '@quarrel/language';
import type { Sheet } from '@quarrel/model';
import { test } from 'vitest';
import { ms, ratio, table } from './measure.js';
import { estimatedSheet, type Shape, sheetOf } from './sheets.js';

/** The sheets of the examples' school, procedures and what they use. */
async function school(): Promise<readonly Sheet[]> {
  const folder = fileURLToPath(new URL('../../examples/school/', import.meta.url));
  const { sheets } = await readSheets(
    ['stone-chip', 'surface-pit'].map((name) => pathToFileURL(`${folder}${name}.quarrel`).href),
    {
      read: async (uri) =>
        uri.startsWith('file:')
          ? { kind: 'text', text: readFileSync(fileURLToPath(uri), 'utf8') }
          : { kind: 'missing' },
    },
    { workspace: pathToFileURL(folder).href },
  );
  return sheets;
}

/** The sheets in which nobody assumes anything, so that no estimate can be made. */
function unassumed(sheets: readonly Sheet[]): readonly Sheet[] {
  return sheets.map((sheet) => ({
    ...sheet,
    procedures: sheet.procedures.map((procedure) => ({
      ...procedure,
      vocabulary: { ...procedure.vocabulary, assumptions: [] },
    })),
  }));
}

function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

test('checking with estimates beside checking without', async () => {
  const rows: string[][] = [];
  const made = async (conditions: number, shape: Shape): Promise<readonly Sheet[]> => [
    await sheetOf(estimatedSheet(400, conditions, shape)),
  ];
  const cases: readonly (readonly [string, readonly Sheet[]])[] = [
    ['the school’s standards', await school()],
    ['400 steps, 8 conditions, independent', await made(8, 'independent')],
    ['400 steps, 8 conditions, paired', await made(8, 'paired')],
    ['400 steps, 24 conditions, independent', await made(24, 'independent')],
  ];
  for (const [what, sheets] of cases) {
    const without = unassumed(sheets);
    const times = { on: [] as number[], off: [] as number[] };
    // In turn, so that what slows the machine slows both; the first do not count.
    for (let run = -3; run < 25; run++) {
      const off = timed(() => checkSheets(without));
      const on = timed(() => checkSheets(sheets));
      if (run >= 0) {
        times.off.push(off);
        times.on.push(on);
      }
    }
    // The quickest of each: whatever else the machine does makes a run slower, never faster.
    const [off, on] = [Math.min(...times.off), Math.min(...times.on)];
    rows.push([what, String(checkSheets(sheets).findings.length), ms(off), ms(on), ratio(on, off)]);
  }
  console.log(
    `\nChecking with all estimates on (the quickest of 25)\n\n${table(
      ['sheets', 'findings', 'without estimates', 'with', 'to without'],
      rows,
    )}\n`,
  );
});
