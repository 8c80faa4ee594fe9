import { describe, expect, test } from 'vitest';
import { clean } from './sheets.js';
import { expectSame, type Trouble, world } from './world.js';

const commands = ['check', 'compile', 'format', 'explain', 'new', 'serve'];

describe('help', () => {
  test('of the command lists what there is', async () => {
    const { code, out, err } = await world({}).quarrel('--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const command of commands) expect(out).toMatch(new RegExp(`^  ${command} `, 'm'));
    for (const later of ['try', 'compare', 'review', 'audit', 'sarif']) expect(out).not.toContain(later);
    expect(out).toContain('Examples:');
  });

  test.each(commands)('of %s has examples', async (command) => {
    const here = world({});
    const { code, out, err } = await here.quarrel(command, '--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain(`quarrel ${command}`);
    expect(out).toContain(`Examples:\n  quarrel ${command}`);
    expect((await here.quarrel('help', command)).out).toBe(out);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(120);
  });

  test('comes where nothing is asked, as wrong use', async () => {
    const { code, out, err } = await world({}).quarrel();
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('Usage: quarrel');
  });

  test('the version', async () => {
    expect(await world({}).quarrel('--version')).toEqual({
      code: 0,
      out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/),
      err: '',
    });
  });
});

describe('arguments', () => {
  test.each([
    [
      ['chek', 'a.quarrel'],
      'There is no command "chek"; there are check, compile, format, explain, new and serve.\nDid you mean check?',
    ],
    [['audit'], 'There is no command "audit"; there are check, compile, format, explain, new and serve.\n'],
    [
      ['serve'],
      'The server needs to know how the editor speaks to it, and there is one way: over standard input and output.\nHave the editor start "quarrel serve --stdio".\n',
    ],
    [['serve', 'a.quarrel', '--stdio'], 'That is too much: serve [options].\n'],
    [['serve', '--socket=1'], 'There is no option --socket=1 of serve.\n'],
    [['check', 'a.quarrel', '--formt', 'json'], 'There is no option --formt of check.\nDid you mean --format?'],
    [['--colour'], 'There is no option --colour.\n'],
    [['check'], 'Something is missing: check [options] <path...>.\n"quarrel check --help" says more.'],
    [['new'], 'Something is missing: new [options] <folder>.\n'],
    [['check', 'a.quarrel', '--format'], '--format needs something behind it: --format <format>.\n'],
    [['check', 'a.quarrel', '--format', 'sarif'], '"sarif" is nothing that --format can be.\nIt can be text or json.'],
    [
      ['check', 'a.quarrel', '--fail-on', 'info'],
      '"info" is nothing that --fail-on can be.\nIt can be error, warning or never.',
    ],
    [['explain', 'a', 'b'], 'That is too much: explain [options] [rule].\n'],
    [['new', 'check', '--odd'], 'There is no option --odd of new.\n'],
    [['new', 'a', 'b'], 'That is too much: new [options] <folder>.\n'],
  ])('%j', async (argv, message) => {
    const here = world({ 'a.quarrel': clean });
    const { code, out, err } = await here.quarrel(...argv);
    expect({ code, out, served: here.served() }).toEqual({ code: 2, out: '', served: 0 });
    expect(err).toContain(message);
    expect(here.files.size).toBe(1);
  });
});

const many = new Uint8Array(50 * 1024 * 1024).fill(32);

describe.each(['check', 'compile', 'format'])('%s of', (command) => {
  test.each<readonly [string, Readonly<Record<string, string | Uint8Array>>, string, string, Trouble]>([
    ['a file that is not there', {}, 'b.quarrel', 'There is no file or folder b.quarrel.', {}],
    ['a folder without sheets', { 'f/x.txt': '' }, 'f', 'There is no sheet in f.', {}],
    [
      'a file of another kind',
      { 'notes.txt': clean },
      'notes.txt',
      'notes.txt is not a sheet: the names of sheets end in .quarrel.',
      {},
    ],
    [
      'a file that may not be read',
      { 'b.quarrel': clean },
      'b.quarrel',
      'b.quarrel cannot be read: there is no permission for it.',
      { '/shop/b.quarrel': 'read' },
    ],
    [
      'a folder that may not be read',
      { 'f/b.quarrel': clean },
      'f',
      'f cannot be read: there is no permission for it.',
      { '/shop/f': 'list' },
    ],
    [
      'a folder with a sheet that may not be read',
      { 'f/b.quarrel': clean },
      'f',
      'f/b.quarrel cannot be read: there is no permission for it.',
      { '/shop/f/b.quarrel': 'read' },
    ],
    [
      'a device',
      { 'b.quarrel': '' },
      'b.quarrel',
      'b.quarrel is neither a file nor a folder.',
      { '/shop/b.quarrel': 'device' },
    ],
    ['a program', { 'b.quarrel': 'x\0y' }, 'b.quarrel', 'b.quarrel cannot be read: it is not text.', {}],
    [
      'junk',
      { 'b.quarrel': new Uint8Array([0x72, 0xff, 0xfe, 0xc3, 0x28]) },
      'b.quarrel',
      'b.quarrel cannot be read: it is not text in UTF-8.',
      {},
    ],
    [
      '50 MiB',
      { 'b.quarrel': many },
      'b.quarrel',
      'b.quarrel cannot be read: it has 50.0 MiB, and a sheet has at most 4 MiB.',
      {},
    ],
  ])('%s', async (_, texts, path, message, trouble) => {
    const here = world({ ...texts, 'good.quarrel': clean }, trouble);
    const before = new Map(here.files);
    const { code, out, err } = await here.quarrel(command, 'good.quarrel', path);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
    expectSame(here.files, before);
  });
});

test('a sheet that is used and cannot be read is a finding', async () => {
  const here = world({
    'a.quarrel': `use "junk"\nuse "huge"\nuse "gone"\n${clean}`,
    'junk.quarrel': 'x\0y',
    'huge.quarrel': many,
  });
  const { code, out } = await here.quarrel('check', 'a.quarrel');
  expect(code).toBe(1);
  expect(out).toContain('The sheet "junk" cannot be read.');
  expect(out).toContain('The sheet "huge" cannot be read.');
  expect(out).toContain('There is no sheet "gone".');
});

describe('a fault of our own', () => {
  const broken = (debug: boolean) => {
    const here = world({ 'a.quarrel': clean }, {}, { debug });
    here.files.get = () => {
      throw new TypeError('something is wrong inside');
    };
    return here.quarrel('check', 'a.quarrel');
  };

  test('is told in one sentence', async () => {
    expect(await broken(false)).toEqual({
      code: 2,
      out: '',
      err: 'Quarrel has come upon a fault of its own and stops here (something is wrong inside); please report it, with the sheet if you can.\n',
    });
  });

  test('says where only to those who ask', async () => {
    const { code, err } = await broken(true);
    expect(code).toBe(2);
    expect(err).toMatch(/\n {4}at .*world\.ts/);
  });
});
