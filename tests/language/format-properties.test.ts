import { formatText, readSheets } from '@quarrel/language';
import { digestOf } from '@quarrel/model';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shuffled, spelled, treeOf } from './format-shuffle.js';
import { sheetsIn } from './sheets.js';

const sheets = [
  ...sheetsIn('examples'),
  ...sheetsIn('packages/trade/sheets'),
  ...sheetsIn('tests/language/fixtures/format'),
];

/** Declarations of all sheets, each a sheet of its own, so that a failure is short. */
const declarations = sheets.flatMap(({ text }) =>
  text.split(/\n(?=\S)/).reduce<string[]>((parts, line) => {
    const last = parts.at(-1);
    // What follows on from a line that cannot be read alone belongs to it.
    if (last !== undefined && treeOf(last) === undefined) parts[parts.length - 1] = `${last}\n${line}`;
    else parts.push(line);
    return parts;
  }, []),
);

/** What a sheet says, by the model, and which rules its problems are of: they quote the text, spaces and all. */
async function meaningOf(text: string): Promise<string> {
  const uri = 'file:///sheets/one.quarrel';
  const { sheets: read } = await readSheets([uri], {
    read: async (asked) => (asked === uri ? { kind: 'text', text } : { kind: 'missing' }),
  });
  return digestOf(read.map(({ problems, ...said }) => ({ ...said, problems: problems.map(({ rule }) => rule) })));
}

function expectSameWords(text: string, formatted: string): void {
  expect(spelled(formatted)).toEqual(spelled(text));
  expect(treeOf(formatted)).toEqual(treeOf(text));
}

function expectHouseStyle(formatted: string): void {
  const lines = formatted.split(formatted.includes('\r\n') ? '\r\n' : '\n');
  expect(lines.at(-1)).toBe('');
  for (const [at, line] of lines.entries()) {
    expect(line).toBe(line.trimEnd());
    if (line !== '') continue;
    expect(lines[at - 1], 'two empty lines').not.toBe('');
  }
}

describe('every sheet of the house', () => {
  test.each(sheets)('$path means the same and stays so', async ({ text }) => {
    const { text: formatted, problems } = formatText(text);
    expect(problems).toEqual([]);
    expectSameWords(text, formatted);
    expectHouseStyle(formatted);
    expect(formatText(formatted).text).toBe(formatted);
    expect(await meaningOf(formatted)).toBe(await meaningOf(text));
  });
});

describe('declarations with other white space, comments and semicolons', () => {
  const written = fc
    .array(fc.constantFrom(...declarations), { minLength: 1, maxLength: 3 })
    .chain((parts) => shuffled(parts.join('\n')))
    .filter((text) => treeOf(text) !== undefined);

  test('keep all words and comments in their order, and are formatted once for all', () => {
    fc.assert(
      fc.property(written, (text) => {
        const { text: formatted, problems } = formatText(text);
        fc.pre(problems.length === 0);
        expectSameWords(text, formatted);
        expectHouseStyle(formatted);
        expect(formatText(formatted).text).toBe(formatted);
      }),
      { numRuns: 600 },
    );
  });

  test('mean the same', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const { text: formatted, problems } = formatText(text);
        fc.pre(problems.length === 0);
        expect(await meaningOf(formatted)).toBe(await meaningOf(text));
      }),
      { numRuns: 60 },
    );
  });
});

test('the declarations are many and of many kinds', () => {
  const kinds = new Set(declarations.map((text) => /^[a-z]+(?= )/m.exec(text)?.[0]));
  expect(declarations.length).toBeGreaterThan(150);
  for (const kind of ['use', 'observation', 'reading', 'state', 'hazard', 'act', 'rule', 'resin', 'procedure']) {
    expect(kinds).toContain(kind);
  }
});
