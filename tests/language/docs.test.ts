import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readOne } from './reading.js';

const page = readFileSync(new URL('../../docs/language.md', import.meta.url), 'utf8');

/** Blocks of the page; one marked `procedure` belongs inside a procedure and is read in this frame. */
const frame = `
observation break: bullseye, half-moon, star, combination
reading glass-temperature: -20 °C to 60 °C
state cavity: empty, filled
hazard uv "UV light" warning
act press-resin
act flex
resin thin
procedure framed {
  step { observe break; read glass-temperature }
`.replace('step {', 'step "Look" {');

const blocks = [...page.matchAll(/```quarrel( procedure)?\n([\s\S]*?)```/g)].map(([, framed, text = '']) => ({
  name: text.trim().split('\n')[0] ?? '',
  text: framed === undefined ? text : `${frame}${text}}\n`,
}));

test('the page has blocks of both kinds', () => {
  expect(blocks.length).toBeGreaterThanOrEqual(11);
});

test.each(blocks)('the block that begins with $name reads without a problem', async ({ text }) => {
  // Whether everything declared is used is a matter of whole sheets, not of an example of a declaration.
  const problems = (await readOne(text)).problems.filter(({ rule }) => rule !== 'unused-declaration');
  expect(problems.filter(({ rule }) => rule !== 'unknown-sheet')).toEqual([]);
});

test('every word of the language is on the page', () => {
  const grammar = readFileSync(new URL('../../packages/language/src/generated/ast.ts', import.meta.url), 'utf8');
  const listed = /export type QuarrelKeywordNames =([\s\S]*?)export type/.exec(grammar)?.[1] ?? '';
  const words = [...listed.matchAll(/"([a-z-]+)"/g)].map(([, word = '']) => word);
  expect(words.length).toBeGreaterThan(50);
  const onPage = new Set(page.match(/[a-z]+(?:-[a-z]+)*/g));
  // Words of variations, which this version reads and does not apply.
  const later = ['instead', 'omit'];
  expect(words.filter((word) => !onPage.has(word) && !later.includes(word))).toEqual([]);
});
