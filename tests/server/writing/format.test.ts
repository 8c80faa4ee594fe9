import { formatText } from '@quarrel/language';
import { TextDocument } from 'langium';
import { beforeAll, expect, test } from 'vitest';
import type { FormattingOptions, Range, TextEdit } from 'vscode-languageserver';
import { formatter } from '../../../packages/server/src/features/format/format.js';
import { createWorld, exampleText, marked, type World } from '../harness.js';

const examples = ['school/stone-chip', 'school/equipment', 'other-trades/headlamp-lens', 'draft/faulty-draft'];
/** The house style has one indentation: what an editor says of its own is not asked for. */
const options: FormattingOptions = { tabSize: 8, insertSpaces: false };
let world: World;

beforeAll(async () => {
  world = await createWorld();
});

/** A text that is written as untidily as the language allows: the same words, other gaps. */
function untidy(text: string): string {
  return text
    .split('\n')
    .map((line, at) => `${' '.repeat(at % 5)}${line.trim()}${at % 7 === 0 ? '   ' : ''}`)
    .join('\n')
    .replace(/\{ (?=do |hold |with )/g, '{\n\n\n   ');
}

async function edits(
  text: string,
  ask: (document: Awaited<ReturnType<World['open']>>) => unknown,
): Promise<readonly TextEdit[]> {
  const document = await world.open('formatted', text);
  const found = await ask(document);
  return Array.isArray(found) ? found : [];
}

const wholeEdits = (text: string) =>
  edits(text, (document) => formatter.formatDocument(document, { textDocument: { uri: '' }, options }));
const rangeEdits = (text: string, range: Range) =>
  edits(text, (document) => formatter.formatDocumentRange(document, { textDocument: { uri: '' }, options, range }));
const typedEdits = (source: string, ch: string) => {
  const { text, cursor: position } = marked(source);
  return edits(text, (document) =>
    formatter.formatDocumentOnType(document, { textDocument: { uri: '' }, options, position, ch }),
  );
};

function applied(text: string, all: readonly TextEdit[]): string {
  return TextDocument.applyEdits(TextDocument.create('file:///x', 'quarrel', 0, text), [...all]);
}

/** The words of a text and what kind each is. */
function wordsOf(text: string): readonly string[] {
  const { tokens } = world.services.quarrel.parser.Lexer.tokenize(text);
  return tokens.filter(({ image }) => image !== ';').map(({ image, tokenType }) => `${tokenType.name} ${image}`);
}

test.each(examples)('all edits together are the house style: %s', async (example) => {
  const text = untidy(exampleText(example));
  const all = await wholeEdits(text);
  expect(all.length).toBeGreaterThan(10);
  expect(applied(text, all)).toBe(formatText(text).text);
  expect(formatText(text).text).not.toBe(text);
});

test('no edit touches a word', async () => {
  const text = untidy(exampleText('school/stone-chip'));
  const document = TextDocument.create('file:///x', 'quarrel', 0, text);
  for (const { range, newText } of await wholeEdits(text))
    expect(`${document.getText(range)}${newText}`).toMatch(/^[\s;]*$/);
});

test('a sheet in the house style needs no edit', async () => {
  expect(await wholeEdits(exampleText('school/stone-chip'))).toEqual([]);
});

test('a range: some of the same edits, and the words stay what they are', async () => {
  const text = untidy(exampleText('other-trades/headlamp-lens'));
  const all = (await wholeEdits(text)).map((edit) => JSON.stringify(edit));
  const lines = text.split('\n').length;
  let made = 0;
  for (let line = 0; line + 9 < lines; line += 7) {
    const range = { start: { line, character: 1 }, end: { line: line + 9, character: 2 } };
    const some = await rangeEdits(text, range);
    made += some.length;
    for (const edit of some) expect(all).toContain(JSON.stringify(edit));
    expect(wordsOf(applied(text, some))).toEqual(wordsOf(text));
  }
  expect(made).toBeGreaterThan(20);
});

test('a sheet that cannot be read is left alone', async () => {
  const text = 'procedure   p {\n   step "A" {   do  \n}';
  expect(await wholeEdits(text)).toEqual([]);
  expect(await rangeEdits(text, { start: { line: 0, character: 0 }, end: { line: 2, character: 0 } })).toEqual([]);
});

test('behind a closing brace its line is set right, and no other', async () => {
  const source = 'procedure p {\n      step "A"\n    step "B" {\n  note   "x"\n  }<|>\n}\n';
  const { text } = marked(source);
  expect(applied(text, await typedEdits(source, '}'))).toBe(
    'procedure p {\n      step "A"\n    step "B" {\n  note   "x"\n  }\n}\n',
  );
  const deep = 'procedure p {\n  step "B" {\n    note "x"\n      }<|>\n}\n';
  expect(applied(marked(deep).text, await typedEdits(deep, '}'))).toBe(
    'procedure p {\n  step "B" {\n    note "x"\n  }\n}\n',
  );
});

test('behind a line break the line before is set right, and the new line stays', async () => {
  const source = 'procedure p {\n step   "A"\n  <|>\n}\n';
  expect(applied(marked(source).text, await typedEdits(source, '\n'))).toBe('procedure p {\n  step "A"\n  \n}\n');
});

test('behind `;` the line up to it is set right, and the `;` stays', async () => {
  const source = 'act look\nprocedure p {\n  step "A" {   do   look;<|>\n  }\n}\n';
  const typed = applied(marked(source).text, await typedEdits(source, ';'));
  expect(typed).toContain('do look;\n');
});

test('a declaration that cannot be read does not keep the line of another from being set right', async () => {
  const source = 'act   broken {{\n}\n\nprocedure p {\n      step "A"\n<|>\n}\n';
  expect(applied(marked(source).text, await typedEdits(source, '\n'))).toContain('\n  step "A"\n');
});

test('every line that is ended is set right with some of the edits of the whole sheet', async () => {
  const text = untidy(exampleText('other-trades/headlamp-lens'));
  const all = (await wholeEdits(text)).map((edit) => JSON.stringify(edit));
  const document = await world.open('formatted', text);
  let made = 0;
  for (let line = 1; line < document.textDocument.lineCount; line += 3) {
    const params = { textDocument: { uri: '' }, options, position: { line, character: 0 }, ch: '\n' };
    const some = await formatter.formatDocumentOnType(document, params);
    made += some.length;
    for (const edit of some) expect(all).toContain(JSON.stringify(edit));
  }
  expect(made).toBeGreaterThan(20);
});
