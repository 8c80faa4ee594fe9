import { expect, test } from 'vitest';
import { world } from './world.js';

test('writes a first sheet that checks without findings, is formatted, and compiles', async () => {
  const here = world({});
  const made = await here.quarrel('new', 'mine');
  expect({ code: made.code, err: made.err }).toEqual({ code: 0, err: '' });
  expect(made.out).toMatch(/^mine\/equipment\.quarrel\nmine\/surface-pit\.quarrel\n\nNext:\n/);
  expect([...here.files.keys()]).toEqual(['/shop/mine/equipment.quarrel', '/shop/mine/surface-pit.quarrel']);
  const checked = await here.quarrel('check', 'mine', '--fail-on', 'warning');
  expect(checked.out).toMatch(/^No findings\. Checked: 1 procedure in 2 sheets/);
  expect(checked.code).toBe(0);
  expect(await here.quarrel('format', 'mine', '--check')).toEqual({ code: 0, out: '', err: '' });
  expect(await here.quarrel('compile', 'mine', '--out', 'mine/out')).toEqual({
    code: 0,
    out: 'mine/out/surface-pit.html\n',
    err: '',
  });
});

test('never writes over anything', async () => {
  const here = world({ 'mine/surface-pit.quarrel': 'my own' });
  const { code, out, err } = await here.quarrel('new', 'mine');
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toContain('There is already mine/surface-pit.quarrel.');
  expect([...here.files]).toEqual([['/shop/mine/surface-pit.quarrel', 'my own']]);
});

test('takes a folder with other things in it', async () => {
  const here = world({ 'notes.txt': 'mine' });
  expect((await here.quarrel('new', '.')).code).toBe(0);
  expect(here.files.get('/shop/notes.txt')).toBe('mine');
});

test('writes nothing where only one of the files can be written', async () => {
  const here = world({}, { '/shop/mine/surface-pit.quarrel': 'write' });
  const { code, err } = await here.quarrel('new', 'mine');
  expect(code).toBe(2);
  expect(err).toContain('mine/surface-pit.quarrel cannot be written');
  expect(here.files.size).toBe(0);
});
