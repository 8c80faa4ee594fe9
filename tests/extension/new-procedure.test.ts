import { expect, test } from 'vitest';
import { equipmentSheet, isName, procedureCalled, titleOf } from '../../packages/extension/src/client/template.js';
import { world } from '../cli/world.js';

test.each([
  { name: 'surface-pit', title: 'Surface pit', equipment: 'equipment' },
  { name: 'winter-pit', title: 'Pit in "winter", $& with a \\', equipment: 'winter-pit-equipment' },
  { name: 'réparation-2', title: 'One line\nand another', equipment: 'equipment' },
])('a new procedure called $name has no findings', async (naming) => {
  const { quarrel } = world({
    [`${naming.name}.quarrel`]: procedureCalled(naming),
    [`${naming.equipment}.quarrel`]: equipmentSheet(),
  });
  const { code, out } = await quarrel('check', '.', '--format', 'json');
  const { findings, summary } = JSON.parse(out);
  expect(findings).toEqual([]);
  expect(summary.procedures).toBe(1);
  expect(code).toBe(0);
  expect(procedureCalled(naming)).toContain(`procedure ${naming.name} "`);
});

test('a name is what the language takes for one', () => {
  expect(['surface-pit', 'pit2', 'pit-2', 'Größe'].filter(isName)).toHaveLength(4);
  expect(['', '2-pit', 'pit-', 'a--b', 'two words', 'a/b', '../pit', 'pit.quarrel'].filter(isName)).toEqual([]);
});

test('a title is made of a name', () => {
  expect(titleOf('surface-pit')).toBe('Surface pit');
});
