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
  expect(after.procedures[0]?.interpretation).toBe(before.procedures[0]?.interpretation);
  const [old, moved] = [before.findings[0], after.findings[0]];
  expect(moved?.range.start.line).toBe((old?.range.start.line ?? 0) + 2);
  expect({ ...moved, range: undefined, mends: [] }).toEqual({ ...old, range: undefined, mends: [] });
});

test('a procedure whose words for people changed is not run again, and is told of in its new words', async () => {
  const memory = new Memory();
  const worded = sheet.replace('"Press lightly', 'first "Press lightly');
  const before = checkSheets(await read({ draft: worded }), { memory });
  const reworded = worded
    .replace('procedure chip {', 'procedure chip "Stone chip" {\n  step "Wipe the glass" { note "Softly." }')
    .replace('observation break:', 'observation break "Break type":');
  const with0 = checkSheets(await read({ draft: reworded }), { memory });
  expect(with0.procedures[0]?.interpretation).not.toBe(before.procedures[0]?.interpretation);
  const after = checkSheets(await read({ draft: reworded.replace('Wipe', 'Clean').replace('Softly', 'Gently') }), {
    memory,
  });
  expect(after.procedures[0]?.interpretation).toBe(with0.procedures[0]?.interpretation);
  expect(with0.findings[0]?.situation?.path[0]?.text).toBe('Wipe the glass');
  expect(after.findings[0]?.situation?.path[0]?.text).toBe('Clean the glass');
});

test('a procedure that means something else is run again', async () => {
  const memory = new Memory();
  const before = checkSheets(await read({ draft: sheet }), { memory });
  const after = checkSheets(await read({ draft: sheet.replace('is star', 'is bullseye') }), { memory });
  expect(after.procedures[0]?.interpretation).not.toBe(before.procedures[0]?.interpretation);
});

/** What a memory makes of the sheet with a hold of some seconds. */
function holding(memory: Memory, name = 'chip') {
  return async (time: number) => {
    const text = sheet
      .replace('procedure chip', `procedure ${name}`)
      .replace('round the legs"', `round the legs" { hold ${time} s }`);
    return checkSheets(await read({ draft: text }), { memory }).procedures[0]?.interpretation;
  };
}

test('a few runs of one procedure are remembered; the oldest goes first', async () => {
  const runOf = holding(new Memory());
  const first = await runOf(10);
  for (const time of [20, 30, 40]) await runOf(time);
  expect(await runOf(10)).toBe(first);
  await runOf(50);
  expect(await runOf(10)).not.toBe(first);
});

test('no more steps are remembered than asked for; the run asked for longest ago goes first', async () => {
  const memory = new Memory(2);
  const first = await holding(memory, 'one')(10);
  await holding(memory, 'two')(10);
  expect(await holding(memory, 'one')(10)).toBe(first);
  const third = await holding(memory, 'three')(10);
  expect(await holding(memory, 'one')(10)).toBe(first);
  expect(await holding(memory, 'three')(10)).toBe(third);
  await holding(memory, 'two')(10);
  expect(await holding(memory, 'one')(10)).not.toBe(first);
});

test('a procedure that stands as it stood is told of in the same words, one that moved where it stands now', async () => {
  const memory = new Memory();
  const two = `${sheet}${sheet.slice(sheet.indexOf('procedure')).replace('chip', 'pit')}`;
  const of = async (text: string) => checkSheets(await read({ draft: text }), { memory }).procedures;
  const before = await of(two);
  const [chip, pit] = await of(two.replace('procedure pit', '// A remark.\nprocedure pit'));
  expect(chip?.findings[0]?.situation).toBe(before[0]?.findings[0]?.situation);
  expect(pit?.findings[0]?.range.start.line).toBe((before[1]?.findings[0]?.range.start.line ?? 0) + 1);
  const [declared] = await of(two.replace('bullseye, star', 'bullseye "Bull", star'));
  expect(declared?.findings[0]?.situation).not.toBe(before[0]?.findings[0]?.situation);
});
