import { type ByScenario, Outgrown, type Region, Store } from '@quarrel/analysis';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const sizes = [2, 3, 4, 2];
const points = sizes.reduce<number[][]>(
  (before, size) => before.flatMap((cells) => Array.from({ length: size }, (_, cell) => [...cells, cell])),
  [[]],
);

/** A function on all points, as a table: what a diagram has to agree with. */
const tables = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: points.length, maxLength: points.length });

function diagramOf(store: Store, table: readonly number[]): ByScenario<number> {
  const build = (level: number, from: number, to: number): ByScenario<number> => {
    if (level === sizes.length) return store.constant(table[from] ?? 0);
    const width = (to - from) / (sizes[level] ?? 1);
    return store.branch(
      level,
      Array.from({ length: sizes[level] ?? 1 }, (_, cell) =>
        build(level + 1, from + cell * width, from + (cell + 1) * width),
      ),
    );
  };
  return build(0, 0, points.length);
}

function tableOf<T>(store: Store, diagram: ByScenario<T>): readonly T[] {
  return points.map((cells) => store.valueAt(diagram, cells));
}

const atLeast2 = (value: number): boolean => value >= 2;
const sum = (a: number, b: number): number => a + b;
const larger = (a: number, b: number): number => Math.max(a, b);

describe('a diagram agrees with its table', () => {
  test('when it is made, mapped and combined', () => {
    fc.assert(
      fc.property(tables, tables, (a, b) => {
        const store = new Store(sizes);
        const [x, y] = [diagramOf(store, a), diagramOf(store, b)];
        expect(tableOf(store, x)).toEqual(a);
        expect(tableOf(store, store.map(x, atLeast2))).toEqual(a.map(atLeast2));
        expect(tableOf(store, store.combine(x, y, sum))).toEqual(a.map((value, index) => value + (b[index] ?? 0)));
      }),
    );
  });

  test('when one is chosen where a region holds', () => {
    fc.assert(
      fc.property(tables, tables, tables, (r, a, b) => {
        const store = new Store(sizes);
        const region = store.map(diagramOf(store, r), atLeast2);
        const chosen = store.choose(region, diagramOf(store, a), diagramOf(store, b));
        expect(tableOf(store, chosen)).toEqual(r.map((value, index) => (value >= 2 ? a[index] : b[index])));
      }),
    );
  });

  test('when an axis is forgotten', () => {
    fc.assert(
      fc.property(tables, fc.nat({ max: sizes.length - 1 }), (a, level) => {
        const store = new Store(sizes);
        const forgotten = tableOf(store, store.forget(diagramOf(store, a), level, larger));
        points.forEach((cells, index) => {
          const alike = points.flatMap((other, at) =>
            other.every((cell, axis) => axis === level || cell === cells[axis]) ? [a[at] ?? 0] : [],
          );
          expect(forgotten[index]).toBe(Math.max(...alike));
        });
      }),
    );
  });
});

describe('laws', () => {
  const regions = (store: Store, tablesOf: readonly (readonly number[])[]): readonly Region[] =>
    tablesOf.map((table) => store.map(diagramOf(store, table), atLeast2));

  test('diagrams that mean the same are one object', () => {
    fc.assert(
      fc.property(tables, tables, (a, b) => {
        const store = new Store(sizes);
        const same = a.every((value, index) => value === b[index]);
        expect(diagramOf(store, a) === diagramOf(store, b)).toBe(same);
        expect(diagramOf(store, a)).toBe(diagramOf(store, [...a]));
      }),
    );
  });

  test('and, or and not are a Boolean algebra', () => {
    fc.assert(
      fc.property(tables, tables, tables, (p, q, r) => {
        const store = new Store(sizes);
        const [a, b, c] = regions(store, [p, q, r]) as [Region, Region, Region];
        expect(store.and(a, b)).toBe(store.and(b, a));
        expect(store.or(a, b)).toBe(store.or(b, a));
        expect(store.and(a, store.and(b, c))).toBe(store.and(store.and(a, b), c));
        expect(store.and(a, store.or(b, c))).toBe(store.or(store.and(a, b), store.and(a, c)));
        expect(store.and(a, a)).toBe(a);
        expect(store.or(a, store.and(a, b))).toBe(a);
        expect(store.not(store.not(a))).toBe(a);
        expect(store.not(store.and(a, b))).toBe(store.or(store.not(a), store.not(b)));
        expect(store.without(a, b)).toBe(store.and(a, store.not(b)));
        expect(store.or(a, store.not(a))).toBe(store.everywhere);
        expect(store.and(a, store.not(a))).toBe(store.nowhere);
      }),
    );
  });

  test('combining is commutative, associative and idempotent where its function is', () => {
    fc.assert(
      fc.property(tables, tables, tables, (p, q, r) => {
        const store = new Store(sizes);
        const [a, b, c] = [diagramOf(store, p), diagramOf(store, q), diagramOf(store, r)];
        expect(store.combine(a, b, larger)).toBe(store.combine(b, a, larger));
        expect(store.combine(a, store.combine(b, c, larger), larger)).toBe(
          store.combine(store.combine(a, b, larger), c, larger),
        );
        expect(store.combine(a, a, larger)).toBe(a);
      }),
    );
  });
});

describe('a task that would cost too much is given up', () => {
  const pairs = 14;
  /** Pairs of axes held together whose partners stand far apart: the diagram doubles with every pair. */
  const grow = (store: Store): Region => {
    let region: Region = store.everywhere;
    for (let pair = 0; pair < pairs; pair++) {
      const both = store.and(store.cells(pair, new Set([0])), store.cells(pair + pairs, new Set([0])));
      region = store.and(region, store.not(both));
    }
    return region;
  };

  test('after the nodes it may make, and the store goes on working', () => {
    const store = new Store(Array.from({ length: 2 * pairs }, () => 2));
    expect(() => store.task({ nodes: 1000, steps: 1_000_000 }, () => grow(store))).toThrow(Outgrown);
    expect(store.and(store.cells(0, new Set([0])), store.cells(0, new Set([1])))).toBe(store.nowhere);
  });

  test('after the steps it may take, naming the widest levels', () => {
    const store = new Store(Array.from({ length: 2 * pairs }, () => 2));
    try {
      store.task({ nodes: 1_000_000, steps: 3000 }, () => grow(store));
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(Outgrown);
      expect((error as Outgrown).widest.length).toBeGreaterThan(0);
    }
  });
});
