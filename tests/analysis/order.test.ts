import { type ByScenario, interpret, nodesOf, Store, sifted } from '@quarrel/analysis';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { all, any, is, observation, procedure, when } from '../build.js';

/** Pairs of axes that are true together somewhere, with partners `distance` apart. */
function pairsHeldApart(store: Store, pairs: number, place: (axis: number) => number): ByScenario<boolean> {
  const at = (axis: number): ByScenario<boolean> => store.cells(place(axis), new Set([0]));
  let some = store.nowhere;
  for (let pair = 0; pair < pairs; pair++) some = store.or(some, store.and(at(pair), at(pair + pairs)));
  return some;
}

function sizeOf(diagram: ByScenario<unknown>): number {
  return [...nodesOf([diagram])].length;
}

describe('sifting', () => {
  test('brings partners together', () => {
    const pairs = 8;
    const sizes = Array.from({ length: 2 * pairs }, () => 2);
    const apart = new Store(sizes);
    expect(sizeOf(pairsHeldApart(apart, pairs, (axis) => axis))).toBeGreaterThan(2 ** pairs);
    const order = sifted(apart.branches(), sizes);
    const together = new Store(sizes);
    const better = pairsHeldApart(together, pairs, (axis) => order.indexOf(axis));
    expect(sizeOf(better)).toBe(2 * pairs + 2);
  });

  test('gives every axis back once, and never a larger diagram', () => {
    const sizes = [2, 3, 2, 3, 2];
    const count = sizes.reduce((product, size) => product * size, 1);
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 2 }), { minLength: count, maxLength: count }), (table) => {
        const value = (cells: readonly number[]): number =>
          table[sizes.reduce((index, size, axis) => index * size + (cells[axis] ?? 0), 0)] ?? 0;
        const build = (order: readonly number[]): ByScenario<number> => {
          const store = new Store(order.map((axis) => sizes[axis] ?? 1));
          const at = (level: number, cells: readonly number[]): ByScenario<number> =>
            level === order.length
              ? store.constant(value(cells))
              : store.branch(
                  level,
                  Array.from({ length: sizes[order[level] ?? 0] ?? 1 }, (_, cell) =>
                    at(level + 1, cells.with(order[level] ?? 0, cell)),
                  ),
                );
          return at(
            0,
            sizes.map(() => 0),
          );
        };
        const first = build([0, 1, 2, 3, 4]);
        const branches = [...nodesOf([first])].filter((node) => node.kind === 'branch');
        const order = sifted(branches, sizes);
        expect([...order].sort()).toEqual([0, 1, 2, 3, 4]);
        expect(sizeOf(build(order))).toBeLessThanOrEqual(sizeOf(first));
      }),
    );
  });
});

test('a procedure whose tests mislead about the order is run all the same, by a better one', () => {
  const half = 18;
  const names = Array.from({ length: 2 * half }, (_, index) => `c${index}`);
  const misleading = names.slice(1).flatMap((name, index) => {
    const test = all(is(`c${index}`, 'yes'), is(name, 'no'));
    return [when([[test, []]]), when([[test, []]]), when([[test, []]])];
  });
  const pairs = any(...names.slice(0, half).map((name, index) => all(is(name, 'yes'), is(`c${index + half}`, 'yes'))));
  const made = procedure('p', 'P', [...misleading, when([[pairs, []]])], {
    vocabulary: { observations: names.map((name) => observation(name, name, { yes: 'Yes', no: 'No' })) },
  });
  const interpretation = interpret(made);
  expect(interpretation.kind).toBe('run');
  if (interpretation.kind === 'run') expect(interpretation.run.situations.store.made).toBeLessThan(20_000);
});
