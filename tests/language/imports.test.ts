import { readSheets, shippedUri } from '@quarrel/language';
import { shippedSheets } from '@quarrel/trade';
import { describe, expect, test } from 'vitest';
import { first, readShop, said, sourceOf } from './reading.js';

const acts = 'act cure\nact fill\n';
const procedure = 'procedure p { step "x" { do cure, fill } }';

describe('use', () => {
  test.each([
    ['other', 'other.quarrel'],
    ['other.quarrel', 'other.quarrel'],
    ['./other', 'other.quarrel'],
    ['sub/other', 'sub/other.quarrel'],
    ['sub\\other', 'sub/other.quarrel'],
    ['sub/../other', 'other.quarrel'],
    ['with space', 'with%20space.quarrel'],
  ])('"%s" is read', async (path, other) => {
    const { sheets, others } = await readShop({ 'main.quarrel': `use "${path}"\n${procedure}`, [other]: acts });
    expect(first(sheets).problems.map(said)).toEqual([]);
    expect(others.map(({ uri }) => uri)).toEqual([`file:///shop/${other}`]);
  });

  test.each([
    ['nowhere', 'missing', ''],
    ['othre', 'missing', ''],
    ['../other', 'outside', ''],
    ['sub/../../other', 'outside', ''],
    ['/etc/other', 'outside', ''],
    ['C:/other', 'outside', ''],
    ['https://example.com/other', 'outside', ''],
    ['file:///shop/other', 'outside', ''],
    ['quarrel:laminated-gloss', 'not-shipped', 'quarrel:laminated-glass'],
  ])('"%s" is %s', async (path, reason, candidates) => {
    const { sheets } = await readShop(
      { 'main.quarrel': `use "${path}"\n${procedure}`, 'file:///other.quarrel': acts },
      { workspace: 'file:///shop', shipped: { 'laminated-glass': acts } },
    );
    // The names that were to come from there are not reported once more.
    expect(first(sheets).problems.map(said)).toEqual([`1:5 unknown-sheet: ${path} ${reason} -> ${candidates}`]);
  });

  test('without a workspace a path may lead anywhere', async () => {
    const { sheets } = await readShop({
      'main.quarrel': `use "../other"\n${procedure}`,
      'file:///other.quarrel': acts,
    });
    expect(first(sheets).problems).toEqual([]);
  });

  test('a sheet that cannot be read is told from one that is missing', async () => {
    const { sheets } = await readSheets(
      ['file:///shop/main.quarrel'],
      {
        read: async (uri) =>
          uri.endsWith('main.quarrel')
            ? { kind: 'text', text: 'use "locked"\nuse "gone"' }
            : { kind: uri.endsWith('locked.quarrel') ? 'unreadable' : 'missing' },
      },
      { shipped: {} },
    );
    expect(first(sheets).problems.map(said)).toEqual([
      '1:5 unknown-sheet: locked unreadable -> ',
      '2:5 unknown-sheet: gone missing -> ',
    ]);
  });

  test('a near name among the sheets that are read is offered', async () => {
    const { sheets } = await readSheets(
      ['file:///shop/main.quarrel', 'file:///shop/house-rules.quarrel'],
      sourceOf({ 'main.quarrel': 'use "house-rule"', 'house-rules.quarrel': acts }),
      { shipped: {} },
    );
    expect(first(sheets).problems.map(said)).toEqual(['1:5 unknown-sheet: house-rule missing -> house-rules']);
  });

  test('what a used sheet uses is visible, also in a circle and by two ways', async () => {
    const { sheets, others } = await readShop({
      'main.quarrel': `use "a"\nuse "b"\n${procedure}`,
      'a.quarrel': 'use "c"\nact fill',
      'b.quarrel': 'use "c"\nuse "main"',
      'c.quarrel': 'use "a"\nact cure',
    });
    expect([...sheets, ...others].flatMap(({ problems }) => problems.map(said))).toEqual([]);
    expect(first(first(sheets).procedures).vocabulary.acts.map(({ name }) => name)).toEqual(['cure', 'fill']);
  });

  test('names that two used sheets both bring clash where the second is used', async () => {
    const { sheets, others } = await readShop({
      'main.quarrel': `use "a"\nuse "b"\n${procedure}`,
      'a.quarrel': acts,
      'b.quarrel': 'act cure',
    });
    expect(first(sheets).problems.map(said)).toEqual(['2:5 name-clash: act cure <- a.quarrel:1']);
    expect(others.flatMap(({ problems }) => problems)).toEqual([]);
  });

  test('a name that clashes with a used one is reported at the own declaration, and only there', async () => {
    const { sheets, others } = await readShop({
      'main.quarrel': `use "a"\n${procedure}`,
      'a.quarrel': `use "c"\nact cure`,
      'c.quarrel': acts,
    });
    expect(first(sheets).problems).toEqual([]);
    expect(others.flatMap(({ problems }) => problems.map(said))).toEqual(['2:5 name-clash: act cure <- c.quarrel:1']);
  });

  test('the sheets asked for come back in order, a missing one as a problem', async () => {
    const { sheets, others, texts } = await readSheets(
      ['file:///shop/b.quarrel', 'file:///shop/none.quarrel', 'file:///shop/a.quarrel'],
      sourceOf({ 'a.quarrel': 'act a', 'b.quarrel': 'use "a"\nact b' }),
      { shipped: {} },
    );
    expect(sheets.map(({ uri, acts: own }) => [uri, own.map(({ name }) => name)])).toEqual([
      ['file:///shop/b.quarrel', ['b']],
      ['file:///shop/none.quarrel', []],
      ['file:///shop/a.quarrel', ['a']],
    ]);
    expect(sheets[1]?.problems).toMatchObject([{ rule: 'unknown-sheet', reason: 'missing' }]);
    expect(others).toEqual([]);
    expect(texts.get('file:///shop/a.quarrel')).toBe('act a');
  });

  test('what ships is there without further ado', async () => {
    const { sheets, others } = await readSheets(
      ['file:///shop/main.quarrel'],
      sourceOf({ 'main.quarrel': 'use "quarrel:laminated-glass"\nprocedure p { step "x" { do cure } }' }),
    );
    expect([...sheets, ...others].flatMap(({ problems }) => problems.map(said))).toEqual([]);
    const ofTheTrade = Object.keys(shippedSheets).filter((name) => name.startsWith('laminated-glass'));
    expect(others.map(({ uri }) => uri).sort()).toEqual(ofTheTrade.map(shippedUri).sort());
  });

  test('a buffer of an editor goes before what ships', async () => {
    const { sheets } = await readShop(
      { 'main.quarrel': `use "quarrel:mine"\n${procedure}`, 'quarrel:/mine.quarrel': acts },
      { shipped: { mine: 'act nothing' } },
    );
    expect(first(sheets).problems).toEqual([]);
  });
});
