import { describe, expect, test } from 'vitest';
import { clean, curedUnfilled, warned } from './sheets.js';
import { expectSame, type Trouble, type World, world } from './world.js';

/** What was written under `folder`, by name. */
function writtenIn({ files }: World, folder: string): Readonly<Record<string, string>> {
  const found = [...files].filter(([path]) => path.startsWith(`/shop/${folder}/`));
  return Object.fromEntries(found.map(([path, text]) => [path.slice(`/shop/${folder}/`.length), String(text)]));
}

describe('outputs', () => {
  test('Markdown goes to the output where nothing is said', async () => {
    const here = world({ 'a.quarrel': clean });
    const { code, out, err } = await here.quarrel('compile', 'a.quarrel');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^# A short job\n/);
    expect([...here.files.keys()]).toEqual(['/shop/a.quarrel']);
  });

  test('HTML goes to a folder where a folder is said, which is made', async () => {
    const here = world({ 'a.quarrel': clean });
    const { code, out, err } = await here.quarrel('compile', 'a.quarrel', '--out', 'made/out');
    expect({ code, out, err }).toEqual({ code: 0, out: 'made/out/short.html\n', err: '' });
    expect(writtenIn(here, 'made/out')).toEqual({ 'short.html': expect.stringMatching(/^<!doctype html>/i) });
  });

  test.each([
    ['md', /^# A short job\n/],
    ['json', /^\{\n {2}"version": 1,/],
    ['html', /^<!doctype html>/i],
  ])('%s is the same to the output and to a file', async (format, start) => {
    const here = world({ 'a.quarrel': clean });
    const { out } = await here.quarrel('compile', 'a.quarrel', '--format', format);
    expect(out).toMatch(start);
    await here.quarrel('compile', 'a.quarrel', '--format', format, '--out', 'o');
    expect(writtenIn(here, 'o')).toEqual({ [`short.${format}`]: out });
  });

  test('one file for each procedure; without a folder there can be but one', async () => {
    const here = world({ 's/a.quarrel': clean, 's/b.quarrel': warned });
    const many = await here.quarrel('compile', 's');
    expect(many).toEqual({
      code: 2,
      out: '',
      err: 'There are 2 procedures: short, idle.\nSay which with --procedure, or give a folder for all of them with --out.\n',
    });
    const one = await here.quarrel('compile', 's', '--procedure', 'short');
    expect(one.out).toMatch(/^# A short job\n/);
    const all = await here.quarrel('compile', 's', '--out', 'o', '--format', 'md');
    expect(all.out).toBe('o/short.md\no/idle.md\n');
    expect(all.err).toBe('idle has 1 warning; "quarrel check" says which.\n');
  });

  test('old files are written over, others stay', async () => {
    const here = world({ 'a.quarrel': clean, 'o/short.md': 'old', 'o/mine.md': 'mine' });
    expect((await here.quarrel('compile', 'a.quarrel', '--out', 'o', '--format', 'md')).code).toBe(0);
    expect(writtenIn(here, 'o')).toEqual({ 'short.md': expect.stringContaining('# A short job'), 'mine.md': 'mine' });
  });
});

describe('--for', () => {
  test('narrows the checklist and is in the name of the file', async () => {
    const here = world({ 'a.quarrel': clean });
    const branches = await here.quarrel('compile', 'a.quarrel');
    expect(branches.out).toContain('Press lightly round the legs');
    const { code, out } = await here.quarrel(
      'compile',
      'a.quarrel',
      '--for',
      'break is bullseye',
      '--for',
      'glass-temperature from 8.5 °C to 20 °C',
      '--format',
      'json',
      '--out',
      'o',
    );
    expect(code).toBe(0);
    expect(out).toBe('o/short-for-break-is-bullseye-and-glass-temperature-from-8-point-5-c-to-20-c.json\n');
    const { scope, steps } = JSON.parse(Object.values(writtenIn(here, 'o'))[0] ?? '');
    expect(scope.supposed).toHaveLength(2);
    expect(steps.map(({ id }: { id: string }) => id)).toEqual(['look', 'read']);
  });

  test('what differs has different names', async () => {
    const sheet = clean
      .replace('0 °C to 40 °C', '-40 °C to 85 °C')
      .replace('  covers { glass-temperature from 5 °C to 35 °C }\n', '');
    const here = world({ 'a.quarrel': sheet });
    const supposed = ['is 5 °C', 'is -5 °C', 'is 8.5 °C', 'is 85 °C', '< 5 °C', '> 5 °C', '<= 5 °C', '>= 5 °C'];
    for (const one of supposed)
      await here.quarrel('compile', 'a.quarrel', '--for', `glass-temperature ${one}`, '--out', 'o');
    const long = supposed
      .slice(0, 3)
      .map((one) => ['--for', `not (glass-temperature ${one}) and break is star, bullseye`]);
    await here.quarrel('compile', 'a.quarrel', ...long.flat(), '--out', 'o');
    await here.quarrel('compile', 'a.quarrel', ...long.slice(0, 2).flat(), '--out', 'o');
    const names = Object.keys(writtenIn(here, 'o'));
    expect(names).toHaveLength(supposed.length + 2);
    for (const name of names) expect(name).toMatch(/^short-for-[a-z0-9-]{1,100}\.html$/);
  });

  test.each([
    ['no condition of that name', ['brek is star'], '"brek" is not the name', 'Did you mean break?'],
    ['no value of that name', ['break is stars'], '"stars" is not the name of a value of break', 'Did you mean star?'],
    ['no unit', ['glass-temperature is 8'], '"8" has no unit', 'Write °C'],
    ['another dimension', ['glass-temperature is 8 mm'], '"8 mm" is a length', 'Write it in °C'],
    ['no condition at all', ['break star'], '--for "break star" is not a condition.', 'Write it like'],
    ['nothing', [''], '--for "" is not a condition.', 'Write it like'],
    ['more than a condition', ['break is star }'], '--for "break is star }" is not a condition.', 'Write it like'],
    [
      'not covered',
      ['glass-temperature is 2 °C'],
      'short covers no situation in which glass-temperature is 2 °C.',
      'short covers: glass-temperature from 5 °C to 35 °C.',
    ],
    [
      'beyond the instrument',
      ['glass-temperature is 400 °C'],
      'short covers no situation in which glass-temperature is 400 °C.',
      'short covers:',
    ],
    [
      'contradictory',
      ['break is star', 'break is bullseye'],
      'short covers no situation in which all of this holds: break is star; break is bullseye.',
      'short covers:',
    ],
  ])('%s', async (_, conditions, fact, advice) => {
    const here = world({ 'a.quarrel': clean });
    const options = conditions.flatMap((condition) => ['--for', condition]);
    const { code, out, err } = await here.quarrel('compile', 'a.quarrel', ...options, '--out', 'o');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(fact);
    expect(err).toContain(advice);
    expect(writtenIn(here, 'o')).toEqual({});
  });
});

describe('procedures with errors', () => {
  test('are not compiled, and their errors are shown', async () => {
    const here = world({ 'a.quarrel': curedUnfilled });
    const { code, out, err } = await here.quarrel('compile', 'a.quarrel', '--out', 'o');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('cure-after-fill (error)  a.quarrel:14:40');
    expect(err).toMatch(/chip has 1 error and is not compiled\..*--draft\.\n$/);
    expect(writtenIn(here, 'o')).toEqual({});
  });

  test('keep those beside them from being written, so that nothing is half there', async () => {
    const here = world({ 's/a.quarrel': curedUnfilled, 's/b.quarrel': clean });
    const { code, err } = await here.quarrel('compile', 's', '--out', 'o');
    expect(code).toBe(1);
    expect(err).toMatch(/Nothing was written\.\n$/);
    expect(writtenIn(here, 'o')).toEqual({});
    expect((await here.quarrel('compile', 's', '--procedure', 'short')).code).toBe(0);
  });

  test('are stamped with --draft; others are not', async () => {
    const here = world({ 's/a.quarrel': curedUnfilled, 's/b.quarrel': clean });
    const { code } = await here.quarrel('compile', 's', '--out', 'o', '--format', 'md', '--draft');
    expect(code).toBe(0);
    const { 'chip.md': chip, 'short.md': short } = writtenIn(here, 'o');
    expect(chip).toContain('DRAFT');
    expect(short).not.toContain('DRAFT');
  });

  test('include those whose sheet, or a sheet it uses, cannot be read whole', async () => {
    const here = world({
      'one.quarrel': `${clean}\nact broken { needs }\n`,
      'two.quarrel': `use "rules"\n${clean}`,
      'rules.quarrel': 'rule no-waiting { hold of wait at least 5 }\nact wait\n',
    });
    const one = await here.quarrel('compile', 'one.quarrel');
    expect({ code: one.code, out: one.out }).toEqual({ code: 1, out: '' });
    expect(one.err).toContain('syntax (error)  one.quarrel');
    const two = await here.quarrel('compile', 'two.quarrel');
    expect({ code: two.code, out: two.out }).toEqual({ code: 1, out: '' });
    expect(two.err).toContain('unit-missing (error)  rules.quarrel:1:41');
  });

  test('do not include those beside a broken sheet that they do not use', async () => {
    const here = world({ 's/a.quarrel': clean, 's/b.quarrel': 'act broken { needs }' });
    expect((await here.quarrel('compile', 's')).code).toBe(0);
  });
});

describe('what cannot be compiled', () => {
  test.each([
    ['no procedure', ['a.quarrel'], { 'a.quarrel': 'resin thin\n' }, 'There is no procedure in these sheets.'],
    [
      'another name',
      ['a.quarrel', '--procedure', 'shart'],
      { 'a.quarrel': clean },
      'There is no procedure called "shart".\nDid you mean short?',
    ],
    [
      'a name far off',
      ['a.quarrel', '--procedure', 'zzzzzzzzz'],
      { 'a.quarrel': clean },
      'There is no procedure called "zzzzzzzzz".\nThere is short.',
    ],
    [
      'a name twice',
      ['a.quarrel', 'b.quarrel', '--procedure', 'short'],
      { 'a.quarrel': clean, 'b.quarrel': clean },
      'There are 2 procedures called short: a.quarrel:4:11 and b.quarrel:4:11.',
    ],
    [
      'files of one name',
      ['a.quarrel', 'b.quarrel', '--out', 'o'],
      { 'a.quarrel': clean, 'b.quarrel': clean.replace('short', 'SHORT') },
      'Two procedures would be written to o/SHORT.html.',
    ],
    [
      'a format to come',
      ['a.quarrel', '--format', 'pdf'],
      { 'a.quarrel': clean },
      '"pdf" is nothing that --format can be.\nIt can be html, md or json.',
    ],
  ])('%s', async (_, argv, texts, message) => {
    const here = world(texts);
    const before = new Map(here.files);
    const { code, out, err } = await here.quarrel('compile', ...argv);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
    expectSame(here.files, before);
  });

  test.each<readonly [string, Trouble]>([
    ['the first file', { '/shop/o/short.html': 'write' }],
    ['the second file', { '/shop/o/idle.html': 'write' }],
    ['the folder', { '/shop/o': 'folder' }],
    ['the place of the first file', { '/shop/o/short.html': 'rename' }],
  ])('nothing is written where %s cannot be', async (_, trouble) => {
    const here = world({ 's/a.quarrel': clean, 's/b.quarrel': warned }, trouble);
    const before = new Map(here.files);
    const { code, out, err } = await here.quarrel('compile', 's', '--out', 'o');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('cannot be written: there is no permission for it.\nNothing was written.\n');
    expectSame(here.files, before);
  });

  test('no file stays half written where only the last cannot be put in its place', async () => {
    const here = world({ 's/a.quarrel': clean, 's/b.quarrel': warned }, { '/shop/o/idle.html': 'rename' });
    const { code, err } = await here.quarrel('compile', 's', '--out', 'o');
    expect(code).toBe(2);
    expect(err).toContain('Written before it: o/short.html.');
    expect(writtenIn(here, 'o')).toEqual({ 'short.html': expect.stringMatching(/<\/html>\s*$/) });
  });

  test('a folder where a file should be', async () => {
    const here = world({ 'a.quarrel': clean, 'o/short.html/x': '' });
    const { code, err } = await here.quarrel('compile', 'a.quarrel', '--out', 'o');
    expect(code).toBe(2);
    expect(err).toContain('o/short.html cannot be written');
  });
});
