import { readdirSync } from 'node:fs';
import { checkSheets, ruleCatalogue } from '@quarrel/checks';
import { describe, expect, test } from 'vitest';
import { type Mark, markFor, marksIn, matches } from './marks.js';
import { fixtures, nameOf, read, textsOf } from './reading.js';

const folders = readdirSync(fixtures).sort();

describe('every finding of a fixture is marked under the code', () => {
  test.each(folders)('%s', async (folder) => {
    const texts = textsOf(folder);
    const { findings } = checkSheets(await read(texts));
    for (const [name, text] of Object.entries(texts)) {
      const left: Mark[] = [...marksIn(text)];
      const unmarked: string[] = [];
      for (const finding of findings.filter(({ range }) => nameOf(range.uri) === name)) {
        const at = left.findIndex((mark) => matches(mark, finding));
        if (at < 0) unmarked.push(`line ${finding.range.start.line + 1}\n${markFor(finding)}`);
        else left.splice(at, 1);
      }
      expect({ unmarked, unmatched: left }, `${folder}/${name}`).toEqual({ unmarked: [], unmatched: [] });
    }
  });
});

test('every rule of the catalogue is made to fire by the fixture of its name', () => {
  for (const { name } of ruleCatalogue) {
    expect(folders, `a folder of fixtures for ${name}`).toContain(name);
    const rules = Object.values(textsOf(name)).flatMap((text) => marksIn(text).map(({ rule }) => rule));
    expect(rules, `a mark of ${name}`).toContain(name);
  }
});
