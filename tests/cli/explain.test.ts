import { ruleCatalogue } from '@quarrel/checks';
import { expect, test } from 'vitest';
import { expectGolden } from './golden.js';
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

test('explains a need and a rule of the trade sheet', async () => {
  const here = world({});
  const need = await here.quarrel('explain', 'cure-after-fill');
  const rule = await here.quarrel('explain', 'slow-warming');
  expectGolden('explain-trade.txt', `${need.out}\n${rule.out}`);
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
