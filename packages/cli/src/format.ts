// What formatting takes, behind one door: it is opened only by those who format, so that the rest starts fast.
import { checkSheets } from '@quarrel/checks';
import type { Problem } from '@quarrel/model';
import type { Io } from './io.js';
import { textOf } from './report/text.js';
import { nameOfSheet } from './sheets/names.js';

export { formatText } from '@quarrel/language';

/** What keeps a sheet from being read, for people. */
export function unreadableText(
  { uri, text, problems }: { readonly uri: string; readonly text: string; readonly problems: readonly Problem[] },
  io: Io,
): string {
  const { findings } = checkSheets([{ uri, procedures: [], acts: [], rules: [], problems }]);
  const surroundings = {
    nameOf: (address: string) => nameOfSheet(address, io.cwd),
    textOf: () => text,
    procedures: [],
    colours: io.stderr.colours,
  };
  return findings.map((finding) => `${textOf(finding, surroundings)}\n`).join('');
}
