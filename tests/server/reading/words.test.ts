import { AstUtils, GrammarAST } from 'langium';
import { beforeAll, describe, expect, test } from 'vitest';
import { wordHelp } from '../../../packages/server/src/features/hover/words.js';
import { createWorld, type World } from '../harness.js';

let world: World;
let words: readonly string[];

beforeAll(async () => {
  world = await createWorld();
  const keywords = AstUtils.streamAst(world.services.quarrel.Grammar)
    .filter(GrammarAST.isKeyword)
    .map(({ value }) => value)
    .filter((value) => /^[a-z]/.test(value));
  words = [...new Set(keywords)].sort();
});

describe('help on words', () => {
  test('every word of the language has help, in one sentence or two', () => {
    expect(words.length).toBeGreaterThan(80);
    expect(words.filter((word) => wordHelp(word) === undefined)).toEqual([]);
    for (const word of words) expect(wordHelp(word)?.says).toMatch(/^[A-Z].{10,160}[.]$/);
  });

  test('every example has the word in it', () => {
    const without = words.filter(
      (word) => !new RegExp(`(^|[^a-z-])${word}([^a-z-]|$)`).test(wordHelp(word)?.example ?? ''),
    );
    expect(without).toEqual([]);
  });

  test('no other word has help', () => {
    for (const word of ['star', 'constructor', 'toString', '']) expect(wordHelp(word)).toBeUndefined();
  });
});
