import { shippedSheets } from '@quarrel/trade';
import { beforeAll, expect, test } from 'vitest';
import { netFor } from '../../../packages/server/src/features/place/place.js';
import { advance, begin, type Thread } from '../../../packages/server/src/features/place/threads.js';
import { createWorld, exampleText, type World } from '../harness.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
});

const examples = [
  'school/stone-chip',
  'school/equipment',
  'school/house-rules',
  'other-trades/composite-patch',
  'draft/faulty-draft',
];
const sheets: Readonly<Record<string, string>> = {
  ...shippedSheets,
  ...Object.fromEntries(examples.map((path) => [path, exampleText(path)])),
};

/** The first word that the net would not take where it stands, or what may come behind the last. */
function readThrough(text: string): string | readonly Thread[] {
  const { parser, Grammar } = world.services.quarrel;
  const net = netFor(Grammar);
  let threads = begin(net, 'Sheet');
  for (const token of parser.Lexer.tokenize(text).tokens) {
    threads = advance(net, threads, token);
    if (threads.length === 0) return `${token.image} in line ${token.startLine}`;
  }
  return threads;
}

test.each(Object.entries(sheets))('every word of %s may stand where it stands', (_, text) => {
  expect(readThrough(text)).toBeInstanceOf(Array);
});

test('a word that may not stand where it stands is not taken', () => {
  expect(readThrough('act cure raises hold {')).toBe('{ in line 1');
  expect(readThrough('procedure p {\n  step "A" { hold do }\n}')).toBe('do in line 2');
});

test('few ways of reading stay open, so that long sheets cost little', () => {
  const ways = readThrough(exampleText('school/stone-chip'));
  expect(ways.length).toBeLessThan(100);
});
