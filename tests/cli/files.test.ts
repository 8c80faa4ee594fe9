import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeFiles, run } from '@quarrel/cli';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { clean } from './sheets.js';
import type { Outcome } from './world.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'quarrel-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The command on the files of this machine, in a folder of its own. */
async function quarrel(...argv: readonly string[]): Promise<Outcome> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(argv, {
    cwd: folder,
    stdout: { write: (text) => out.push(text), colours: false },
    stderr: { write: (text) => err.push(text), colours: false },
    files: nodeFiles((work) => work()),
    debug: false,
    serve: () => Promise.reject(new Error('nothing is served here')),
  });
  return { code, out: out.join(''), err: err.join('') };
}

function write(path: string, text: string): void {
  mkdirSync(join(folder, path, '..'), { recursive: true });
  writeFileSync(join(folder, path), text);
}

const untidy = 'resin   thin\n';

test('folders that are linked into one another are walked once', async () => {
  write('f/a.quarrel', clean);
  write('f/g/b.quarrel', 'resin thin\n');
  symlinkSync('..', join(folder, 'f/g/up'));
  symlinkSync('.', join(folder, 'f/self'));
  const { code, out } = await quarrel('check', 'f');
  expect(code).toBe(0);
  expect(out).toContain('1 procedure in 2 sheets');
});

test('a sheet that is reached by two names is read once', async () => {
  write('f/a.quarrel', clean);
  symlinkSync('a.quarrel', join(folder, 'f/b.quarrel'));
  expect((await quarrel('check', 'f', 'f/../f/a.quarrel')).out).toContain('1 procedure in 1 sheet');
});

test('a link that leads nowhere or back to itself is told of', async () => {
  write('f/a.quarrel', clean);
  symlinkSync('gone', join(folder, 'f/b.quarrel'));
  expect(await quarrel('check', 'f')).toMatchObject({ code: 2, err: 'f/b.quarrel cannot be read: it is not there.\n' });
  unlinkSync(join(folder, 'f/b.quarrel'));
  symlinkSync('b.quarrel', join(folder, 'f/b.quarrel'));
  expect(await quarrel('check', 'f')).toMatchObject({
    code: 2,
    err: 'f/b.quarrel cannot be read: it is a link that leads back to itself.\n',
  });
});

test('what is no file, and a path through a file, are told of', async () => {
  write('a.quarrel', clean);
  expect(await quarrel('check', '/dev/null')).toMatchObject({
    code: 2,
    err: expect.stringContaining('neither a file nor a folder'),
  });
  expect(await quarrel('check', 'a.quarrel/b.quarrel')).toMatchObject({
    code: 2,
    err: expect.stringContaining('There is no file or folder a.quarrel/b.quarrel.'),
  });
  expect(await quarrel('compile', 'a.quarrel', '--out', 'a.quarrel')).toMatchObject({
    code: 2,
    out: '',
    err: expect.stringContaining('cannot be written'),
  });
});

test('names with spaces, signs and other letters', async () => {
  write('Glas & Söhne #1/Regeln 100%.quarrel', 'resin thin { surface-tension 33 }');
  write('Glas & Söhne #1/a?.quarrel', 'use "Regeln 100%"\nprocedure p "P" { step s "S" { with thin; takes 5 s } }\n');
  const { code, out } = await quarrel('check', '.');
  expect(code).toBe(1);
  expect(out).toContain('unit-missing (error)  Glas & Söhne #1/Regeln 100%.quarrel:1:30');
  expect(out).toContain('1 error. Checked: 1 procedure in 2 sheets');
});

test('files outside of the folder are named by the way to them', async () => {
  write('in/x', '');
  write('out/a.quarrel', 'resin thin { surface-tension 33 }');
  folder = join(folder, 'in');
  const { out } = await quarrel('check', '../out/a.quarrel');
  folder = join(folder, '..');
  expect(out).toContain('unit-missing (error)  ../out/a.quarrel:1:30');
});

test('formatting keeps permissions and links, and leaves nothing beside', async () => {
  write('f/real.quarrel', untidy);
  chmodSync(join(folder, 'f/real.quarrel'), 0o600);
  symlinkSync('real.quarrel', join(folder, 'f/link.quarrel'));
  expect(await quarrel('format', 'f/link.quarrel')).toEqual({ code: 0, out: 'f/link.quarrel\n', err: '' });
  expect(readFileSync(join(folder, 'f/real.quarrel'), 'utf8')).toBe('resin thin\n');
  expect(statSync(join(folder, 'f/real.quarrel')).mode & 0o777).toBe(0o600);
  expect(readdirSync(join(folder, 'f')).sort()).toEqual(['link.quarrel', 'real.quarrel']);
});

test('a folder that was made is taken away again when nothing can be written into it', async () => {
  write('a.quarrel', clean.replaceAll('short', 'x'.repeat(300)));
  expect(await quarrel('compile', 'a.quarrel', '--out', 'deep/er/out')).toEqual({
    code: 2,
    out: '',
    err: expect.stringContaining('its name is too long.\nNothing was written.\n'),
  });
  expect(readdirSync(folder)).toEqual(['a.quarrel']);
});
