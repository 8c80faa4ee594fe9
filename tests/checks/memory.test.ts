import { checkSheets, Memory } from '@quarrel/checks';
import { expect, test } from 'vitest';
import { read } from './reading.js';

const sheet = `
observation break: bullseye, star
procedure chip {
  when break is star {
    step "Press lightly round the legs"
  }
}
`;

test('a procedure whose lines moved is not run again, and is reported where it stands now', async () => {
  const memory = new Memory();
  const before = checkSheets(await read({ draft: sheet }), { memory });
  const after = checkSheets(await read({ draft: `\n// A remark.\n${sheet}` }), { memory });
  expect(after.procedures[0]?.digest).toBe(before.procedures[0]?.digest);
  expect(after.procedures[0]?.interpretation).toBe(before.procedures[0]?.interpretation);
  const [old, moved] = [before.findings[0], after.findings[0]];
  expect(moved?.range.start.line).toBe((old?.range.start.line ?? 0) + 2);
  expect({ ...moved, range: undefined, mends: [] }).toEqual({ ...old, range: undefined, mends: [] });
});

test('a procedure that means something else is run again', async () => {
  const memory = new Memory();
  const before = checkSheets(await read({ draft: sheet }), { memory });
  const after = checkSheets(await read({ draft: sheet.replace('is star', 'is bullseye') }), { memory });
  expect(after.procedures[0]?.interpretation).not.toBe(before.procedures[0]?.interpretation);
});

test('no more procedures are remembered than asked for; the one asked for longest ago goes first', async () => {
  const memory = new Memory(2);
  const runOf = async (text: string) =>
    checkSheets(await read({ draft: text }), { memory }).procedures[0]?.interpretation;
  const others = ['legs', 'rim', 'cone'].map((word) => sheet.replace('legs', `${word} twice`));
  const first = await runOf(sheet);
  await runOf(others[0] ?? '');
  expect(await runOf(sheet)).toBe(first);
  await runOf(others[1] ?? '');
  expect(await runOf(sheet)).toBe(first);
  await runOf(others[1] ?? '');
  await runOf(others[2] ?? '');
  expect(await runOf(sheet)).not.toBe(first);
});
