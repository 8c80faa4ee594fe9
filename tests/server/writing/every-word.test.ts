import type { SheetDocument } from '@quarrel/language';
import { beforeAll, expect, test } from 'vitest';
import { createWorld, exampleText, type World } from '../harness.js';
import { itemsAt } from './offered.js';

const paths = ['school/equipment', 'school/house-rules', 'school/stone-chip'];
const texts = Object.fromEntries(paths.map((path) => [path.replace('school/', ''), exampleText(path)]));
let world: World;

beforeAll(async () => {
  world = await createWorld();
  await world.openAll(texts);
});

interface Word {
  readonly text: string;
  readonly offset: number;
}

/** Words of the language, names in use and units; no texts, numbers and signs, and no names that are new where they stand. */
function wordsOf(document: SheetDocument): readonly Word[] {
  const { references, parseResult } = document;
  const referring = new Set(references.map(({ $refNode }) => $refNode?.offset));
  const { tokens } = world.services.quarrel.parser.Lexer.tokenize(document.textDocument.getText());
  const property = /^(viscosity|surface-tension|cure-dose|works|open-time|irradiance|wavelength|spot|vacuum|pressure)$/;
  expect(parseResult.parserErrors).toEqual([]);
  return tokens
    .filter(({ tokenType, image, startOffset }) => {
      if (tokenType.name === 'ID') return referring.has(startOffset) || property.test(image);
      return tokenType.name === 'UNIT' || /^[a-z]/.test(tokenType.name);
    })
    .map(({ image, startOffset }) => ({ text: image, offset: startOffset }));
}

/** What is offered begins with the word: `or else stop` where `or` stands. A drop is offered as `drops`. */
function isOffered(document: SheetDocument, { text }: Word, offset: number): boolean {
  const items = itemsAt(world, document, document.textDocument.positionAt(offset));
  const singular = text.replace(/^(drop|piece)$/, '$1s');
  return items.some(({ label }) => label.split(' ')[0] === singular);
}

test.each(Object.keys(texts))('every word of %s is offered where it stands', (name) => {
  const document = world.sheet(name);
  const words = wordsOf(document);
  expect(words.length).toBeGreaterThan(20);
  const missing = words.filter((word) => !isOffered(document, word, word.offset));
  expect(
    missing.map(({ text, offset }) => `${text} at ${JSON.stringify(document.textDocument.positionAt(offset))}`),
  ).toEqual([]);
});

test('every word is offered where the rest of its line is not written yet', async () => {
  const text = texts['stone-chip'] ?? '';
  const words = wordsOf(world.sheet('stone-chip')).filter((_, at) => at % 17 === 0);
  expect(words.length).toBeGreaterThan(40);
  const missing: string[] = [];
  for (const word of words) {
    const end = text.indexOf('\n', word.offset);
    const document = await world.open('stone-chip', text.slice(0, word.offset) + text.slice(end));
    if (!isOffered(document, word, word.offset))
      missing.push(`${word.text}: ${text.slice(text.lastIndexOf('\n', word.offset) + 1, word.offset)}`);
  }
  await world.open('stone-chip', text);
  expect(missing).toEqual([]);
});
