import { expect, test } from 'vitest';
import { clean } from './sheets.js';
import { world } from './world.js';

const untidy = 'resin   thin\n\n\n\nprocedure a "A" {\nstep s "S" {takes 5 s}   // a word\n}\n';

test('writes what is not in the house style, and nothing else', async () => {
  const here = world({ 'f/a.quarrel': untidy, 'f/b.quarrel': clean });
  const first = await here.quarrel('format', 'f');
  expect(first).toEqual({ code: 0, out: 'f/a.quarrel\n', err: '' });
  const formatted = here.files.get('/shop/f/a.quarrel');
  expect(formatted).toContain('  step s "S" { takes 5 s } // a word\n');
  expect(here.files.get('/shop/f/b.quarrel')).toBe(clean);
  expect(await here.quarrel('format', 'f')).toEqual({ code: 0, out: '', err: '' });
  expect(here.files.get('/shop/f/a.quarrel')).toBe(formatted);
  expect(here.files.size).toBe(2);
});

test('--check writes nothing', async () => {
  const here = world({ 'a.quarrel': untidy, 'b.quarrel': clean });
  expect(await here.quarrel('format', '.', '--check')).toEqual({
    code: 1,
    out: 'a.quarrel\n',
    err: '1 sheet not in the house style; "quarrel format" writes it.\n',
  });
  expect(here.files.get('/shop/a.quarrel')).toBe(untidy);
  expect(await here.quarrel('format', 'b.quarrel', '--check')).toEqual({ code: 0, out: '', err: '' });
});

test('leaves a sheet alone that cannot be read, says why, and formats the others', async () => {
  const broken = 'procedure a "A" { step   s }\n';
  const here = world({ 'a.quarrel': broken, 'b.quarrel': untidy });
  const { code, out, err } = await here.quarrel('format', '.');
  expect({ code, out }).toEqual({ code: 1, out: 'b.quarrel\n' });
  expect(err).toContain('syntax (error)  a.quarrel:1:');
  expect(err).toMatch(/1 sheet cannot be read and is left alone\.\n$/);
  expect(here.files.get('/shop/a.quarrel')).toBe(broken);
});

test('keeps a byte order mark', async () => {
  const here = world({ 'a.quarrel': `\uFEFF${clean}`, 'b.quarrel': `\uFEFF${untidy}` });
  expect((await here.quarrel('format', '.')).out).toBe('b.quarrel\n');
  expect(here.files.get('/shop/b.quarrel')).toMatch(/^\uFEFFresin thin\n/);
});

test('writes none of them where one cannot be written', async () => {
  const here = world({ 'a.quarrel': untidy, 'b.quarrel': untidy }, { '/shop/b.quarrel': 'write' });
  const { code, err } = await here.quarrel('format', '.');
  expect(code).toBe(2);
  expect(err).toContain('b.quarrel cannot be written');
  expect([...here.files]).toEqual([
    ['/shop/a.quarrel', untidy],
    ['/shop/b.quarrel', untidy],
  ]);
});
