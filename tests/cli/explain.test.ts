import { ruleCatalogue } from '@quarrel/checks';
import { expect, test } from 'vitest';
import { world } from './world.js';

test('explains a rule from its page', async () => {
  const { code, out, err } = await world({}).quarrel('explain', 'gap-in-choice');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^gap-in-choice\n\n/);
  expect(out).toContain('    procedure chip "Stone chip" {');
  expect(out).not.toMatch(/```|^#|`/m);
});

test.each(ruleCatalogue.map(({ name }) => name))('has something to say about %s', async (name) => {
  const { code, out } = await world({}).quarrel('explain', name);
  expect(code).toBe(0);
  expect(out).toContain('Why');
  expect(out).toContain('How to mend it');
});

test.each([
  [
    'a need',
    'cure-after-fill',
    /^cure-after-fill\n\n {2}asks {9}Before cure: resin-in-break is present and cavity is filled, wetted, cured\n {2}severity {5}error\n {2}why {10}Curing locks in/,
  ],
  [
    'a rule',
    'slow-warming',
    /^slow-warming\n\nWarm slowly\.\n\n {2}asks {9}hold of warm at least 5 min\n {2}severity {5}error\n {2}why {10}Fast heating/,
  ],
])('explains %s of the trade sheet: what the sheet says, then its page', async (_, name, start) => {
  const { code, out, err } = await world({}).quarrel('explain', name);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(start);
  expect(out).toMatch(/\n {2}source {7}common practice/);
  expect(out).toMatch(/\n {2}declared in {2}quarrel:laminated-glass-(acts|rules)\n\n/);
  expect(out).toContain('\nHow to mend it\n');
  expect(out.match(new RegExp(`^${name}$`, 'gm'))).toHaveLength(1);
});

test('lists all rules, each in a line', async () => {
  const { code, out } = await world({}).quarrel('explain');
  expect(code).toBe(0);
  for (const { name, title } of ruleCatalogue) expect(out).toMatch(new RegExp(`^  ${name} +${escaped(title)}$`, 'm'));
  expect(out).toMatch(/^ {2}cure-after-fill +Before cure: /m);
  expect(out).toMatch(/^ {2}slow-warming +Warm slowly$/m);
});

test('offers the nearest names, or the list', async () => {
  const here = world({});
  expect(await here.quarrel('explain', 'gap-in-choise')).toEqual({
    code: 2,
    out: '',
    err: expect.stringContaining('Did you mean gap-in-choice?'),
  });
  expect(await here.quarrel('explain', 'zzzzzzzzzzz')).toEqual({
    code: 2,
    out: '',
    err: expect.stringContaining('"quarrel explain" lists the rules there are.'),
  });
});

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
