import { formatText } from '@quarrel/language';
import { describe, expect, test } from 'vitest';
import { sheetsIn } from './sheets.js';

const fixtures = sheetsIn('tests/language/fixtures/format');

describe('a sheet in the house style', () => {
  const written = fixtures.filter(({ path }) => path.endsWith('.written.quarrel'));

  test('there are sheets to compare with', () => {
    expect(written.length).toBeGreaterThanOrEqual(4);
    expect(fixtures).toHaveLength(2 * written.length);
  });

  test.each(written)('$path', ({ path, text }) => {
    const golden = fixtures.find((one) => one.path === path.replace('.written.', '.formatted.'));
    expect(formatText(text)).toEqual({ text: golden?.text, problems: [] });
  });
});

test.each([...sheetsIn('examples'), ...sheetsIn('packages/trade/sheets'), ...sheetsIn('packages/cli/templates')])(
  '$path is formatted',
  ({ text }) => {
    expect(formatText(text).text).toBe(text);
  },
);

describe('the edges of a text', () => {
  test.each([
    ['nothing stays nothing', '', ''],
    ['white space alone goes', ' \n\t\n', ''],
    ['a comment alone stays', '\n// only this  ', '// only this\n'],
    ['the last line ends', 'tool probe', 'tool probe\n'],
    ['empty lines at the ends go', '\n\ntool probe\n\n\n', 'tool probe\n'],
    ['semicolons between lines go', 'act a {\n;makes b c;;\n; raises d;\n}', 'act a {\n  makes b c\n  raises d\n}\n'],
    ['an empty block is closed at once', 'act a {\n\n}', 'act a {}\n'],
    ['an open block stays open', 'act a { makes b c\n}', 'act a {\n  makes b c\n}\n'],
    ['line ends stay', 'tool a\r\n\r\n\r\n/* b\r\n c */ tool b', 'tool a\r\n\r\n/* b\r\n c */ tool b\r\n'],
    ['a byte order mark stays', '\uFEFFtool   a', '\uFEFFtool a\n'],
    ['texts stay', 'tool a "  two  spaces \\" { ; // "', 'tool a "  two  spaces \\" { ; // "\n'],
  ])('%s', (_, text, formatted) => {
    expect(formatText(text)).toEqual({ text: formatted, problems: [] });
  });
});

describe('a sheet that cannot be read is returned as it is, with what is wrong', () => {
  test.each([
    ['a word that lacks', 'tool  a\nprocedure p {\n  step  "x" { do }\n}\n', 2],
    ['a character without meaning', 'tool  a\ntool b §\n', 1],
    ['a text without its end', 'tool  a\ntool b "open\n', 1],
    ['a comment without its end', 'tool  a\n/* open', 1],
    ['a brace that closes nothing', 'tool  a\nprocedure p {\n}\n}\n', 3],
    ['a step outside of its procedure', 'procedure  p {\n}\nstep "x" { do a }\n', 2],
    ['a step without its brace', 'procedure  p {\n  step "x"\n  do a }\n}\n', 1],
    ['a use behind declarations', 'tool  a\nuse "b"\n', 1],
  ])('%s', (_, text, line) => {
    const { text: same, problems } = formatText(text, 'file:///sheets/a.quarrel');
    expect(same).toBe(text);
    expect(problems).toMatchObject([{ rule: 'syntax', range: { uri: 'file:///sheets/a.quarrel', start: { line } } }]);
  });
});

describe('width', () => {
  const block = (length: number): string => `act a { source "${'x'.repeat(length - 'act a { source "" }'.length)}" }\n`;

  test('a block of 100 columns stays on its line, one of 101 does not', () => {
    expect(block(100)).toHaveLength(101);
    expect(formatText(block(100)).text).toBe(block(100));
    expect(formatText(block(101)).text).toMatch(/^act a \{\n {2}source "x+"\n\}\n$/);
  });

  test('what stands behind a block counts as well', () => {
    const [head, tail] = ['procedure p {\n', '\n}\n'];
    const line = `  repeat { step "${'x'.repeat(50)}" } or else stop "Refer it."`;
    expect(formatText(`${head}${line}${tail}`).text).toBe(`${head}${line}${tail}`);
    const long = line.replace('Refer it.', 'Refer the glass.');
    expect(formatText(`${head}${long}${tail}`).text).toBe(
      `${head}  repeat {\n    step "${'x'.repeat(50)}"\n  } or else stop "Refer the glass."${tail}`,
    );
  });

  test('a comment at the end of a line does not count', () => {
    const line = `${block(100).trimEnd()} // and some more\n`;
    expect(formatText(line).text).toBe(line);
  });
});

test('10,000 lines in the house style stay as they are', () => {
  const step = '    step "x" {\n      do a, b /* c */ with d // e\n      hold 1 min to 90 s\n    }\n';
  const sheet = `procedure p {\n  stage "s" {\n${step.repeat(2_500)}  }\n}\n`;
  expect(formatText(sheet).text).toBe(sheet);
});

test('a block of 20,000 clauses on one line takes no time of its own', () => {
  const text = `procedure p { ${'revision "1"; '.repeat(20_000)}}`;
  const start = performance.now();
  expect(formatText(text).text.split('\n')).toHaveLength(20_003);
  expect(performance.now() - start).toBeLessThan(15_000);
});
