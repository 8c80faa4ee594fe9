import { readFileSync } from 'node:fs';
import { checkSheets, type ProcedureReport } from '@quarrel/checks';
import { parseTest, readSheets } from '@quarrel/language';
import type { Pictured } from '@quarrel/pictures';

const folder = new URL('../../examples/', import.meta.url);

/** The procedures of an example, checked, for pictures to be made of. */
export async function examplesIn(path: string): Promise<readonly Pictured[]> {
  return checked(new URL(path, folder).href, (uri) => readFileSync(new URL(uri), 'utf8'));
}

/** The procedures of a text, checked. */
export async function proceduresIn(text: string): Promise<readonly Pictured[]> {
  return checked('file:///sheet.quarrel', () => text);
}

async function checked(address: string, textOf: (uri: string) => string): Promise<readonly Pictured[]> {
  const { sheets } = await readSheets([address], {
    read: async (uri) => (uri.startsWith('file:') ? { kind: 'text', text: textOf(uri) } : { kind: 'missing' }),
  });
  return checkSheets(sheets).procedures.map(pictured);
}

function pictured(report: ProcedureReport): Pictured {
  return { ...report, read: (text) => parseTest(text, report.procedure.vocabulary).test };
}
