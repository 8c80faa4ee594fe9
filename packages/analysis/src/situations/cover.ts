import { type ByScenario, levelOf, type Region } from '../diagram/diagram.js';
import { Outgrown, type Store } from '../diagram/store.js';

/** Cells allowed on some axes, by level; every cell of the axes not mentioned. A set of situations that can be said in one go. */
export type Cube = ReadonlyMap<number, ReadonlySet<number>>;

/** On these axes a cube's cells have to be neighbours: readings, where they make one stretch. */
export type IsOrdered = (level: number) => boolean;

/**
 * Few cubes that together hold all of `low` and nothing outside `high` (what lies between is free). Throws `Outgrown` when
 * there would be more than `most`.
 *
 * The first cover is irredundant by construction (Minato's and Morreale's recursion, carried over to axes of many cells); then
 * each cube is widened as far as `high` allows and cubes that the others make needless are dropped.
 */
export function coverOf(store: Store, low: Region, high: Region, isOrdered: IsOrdered, most: number): readonly Cube[] {
  const first = irredundant(store, low, high, isOrdered, most);
  const levels = [...new Set(first.flatMap((cube) => [...cube.keys()]))].sort((a, b) => a - b);
  const tries = [levels, [...levels].reverse()].map((order) =>
    withoutNeedless(store, low, distinct(first.map((cube) => widen(store, cube, high, order, isOrdered)))),
  );
  return tries.reduce((best, cover) => (weightOf(cover) < weightOf(best) ? cover : best));
}

function weightOf(cover: readonly Cube[]): number {
  return cover.reduce((sum, cube) => sum + 1 + cube.size, 0);
}

interface Cover {
  readonly cubes: readonly Cube[];
  readonly region: Region;
}

function irredundant(store: Store, low: Region, high: Region, isOrdered: IsOrdered, most: number): readonly Cube[] {
  const known = new Map<string, Cover>();
  const cover = (inner: Region, outer: Region): Cover => {
    if (inner === store.nowhere) return { cubes: [], region: store.nowhere };
    if (outer === store.everywhere) return { cubes: [new Map()], region: store.everywhere };
    const key = `${inner.id},${outer.id}`;
    let found = known.get(key);
    if (found === undefined) {
      found = split(inner, outer);
      if (found.cubes.length > most) throw new Outgrown([]);
      known.set(key, found);
    }
    return found;
  };
  const split = (inner: Region, outer: Region): Cover => {
    const level = Math.min(levelOf(inner), levelOf(outer));
    const cells = Array.from({ length: store.sizes[level] ?? 1 }, (_, cell) => cell);
    const innerAt = (cell: number): Region => childOf(inner, level, cell);
    const outerAt = (cell: number): Region => childOf(outer, level, cell);
    const common = cells.map(outerAt).reduce((a, b) => store.and(a, b));
    const cubes: Cube[] = [];
    let region = store.nowhere;
    let left = store.nowhere;
    const groups = grouped(
      cells,
      isOrdered(level),
      (cell) => `${store.without(innerAt(cell), common).id},${outerAt(cell).id}`,
    );
    for (const group of groups) {
      const [cell = 0] = group;
      const part = cover(store.without(innerAt(cell), common), outerAt(cell));
      const here = new Set(group);
      cubes.push(...part.cubes.map((cube) => new Map([[level, here], ...cube])));
      region = store.or(region, store.and(store.cells(level, here), part.region));
      for (const one of group) left = store.or(left, store.without(innerAt(one), part.region));
    }
    const rest = cover(left, common);
    return { cubes: [...cubes, ...rest.cubes], region: store.or(region, rest.region) };
  };
  return cover(low, high).cubes;
}

/** Cells that behave alike; on an ordered axis only neighbours go together. */
function grouped(
  cells: readonly number[],
  ordered: boolean,
  keyOf: (cell: number) => string,
): readonly (readonly number[])[] {
  const groups: number[][] = [];
  const byKey = new Map<string, number[]>();
  let last: string | undefined;
  for (const cell of cells) {
    const key = keyOf(cell);
    const group = !ordered || key === last ? byKey.get(key) : undefined;
    if (group === undefined) {
      const fresh = [cell];
      groups.push(fresh);
      byKey.set(key, fresh);
    } else group.push(cell);
    last = key;
  }
  return groups;
}

function childOf(node: ByScenario<boolean>, level: number, cell: number): ByScenario<boolean> {
  if (node.kind === 'leaf' || node.level !== level) return node;
  return node.children[cell] ?? node;
}

/** The cube with axes dropped or given more cells, axis by axis in the order given, as long as it stays inside `high`. */
function widen(store: Store, cube: Cube, high: Region, order: readonly number[], isOrdered: IsOrdered): Cube {
  let wide = cube;
  for (const level of order) {
    const cells = wide.get(level);
    if (cells === undefined) continue;
    const free = new Map(wide);
    free.delete(level);
    if (isInside(store, free, high)) {
      wide = free;
      continue;
    }
    for (const more of growth(cells, store.sizes[level] ?? 1, isOrdered(level))) {
      const now = wide.get(level) ?? cells;
      if (isOrdered(level) && !(now.has(more - 1) || now.has(more + 1))) continue;
      const larger = new Map(wide).set(level, new Set([...now, more].sort((a, b) => a - b)));
      if (isInside(store, larger, high)) wide = larger;
    }
  }
  return wide;
}

/** The cells to try to add: on an ordered axis outwards from the stretch, else all others. */
function growth(cells: ReadonlySet<number>, size: number, ordered: boolean): readonly number[] {
  const others = Array.from({ length: size }, (_, cell) => cell).filter((cell) => !cells.has(cell));
  if (!ordered) return others;
  const [low, high] = [Math.min(...cells), Math.max(...cells)];
  return [...others.filter((cell) => cell < low).reverse(), ...others.filter((cell) => cell > high)];
}

/** Whether every situation of the cube lies in the region. */
function isInside(store: Store, cube: Cube, region: Region): boolean {
  const seen = new Map<number, boolean>();
  const visit = (node: ByScenario<boolean>): boolean => {
    if (node.kind === 'leaf') return node.value;
    let all = seen.get(node.id);
    if (all === undefined) {
      store.spend(1);
      const cells = cube.get(node.level);
      all = node.children.every((child, cell) => (cells !== undefined && !cells.has(cell)) || visit(child));
      seen.set(node.id, all);
    }
    return all;
  };
  return visit(region);
}

function distinct(cubes: readonly Cube[]): readonly Cube[] {
  const keyOf = (cube: Cube): string =>
    [...cube]
      .sort(([a], [b]) => a - b)
      .map(([level, cells]) => `${level}:${[...cells].join(' ')}`)
      .join(';');
  return [...new Map(cubes.map((cube) => [keyOf(cube), cube])).values()];
}

/** The cover without cubes that the others make needless, the narrowest looked at first. */
function withoutNeedless(store: Store, low: Region, cubes: readonly Cube[]): readonly Cube[] {
  const regions = new Map(cubes.map((cube) => [cube, regionOf(store, cube)]));
  const narrowestFirst = [...cubes].sort((a, b) => b.size - a.size);
  const kept = new Set(cubes);
  for (const cube of narrowestFirst) {
    let others = store.nowhere;
    for (const other of kept) if (other !== cube) others = store.or(others, regions.get(other) ?? store.nowhere);
    if (store.without(low, others) === store.nowhere) kept.delete(cube);
  }
  return cubes.filter((cube) => kept.has(cube));
}

function regionOf(store: Store, cube: Cube): Region {
  return [...cube]
    .sort(([a], [b]) => b - a)
    .reduce((region, [level, cells]) => store.and(store.cells(level, cells), region), store.everywhere);
}
