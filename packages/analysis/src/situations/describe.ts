import { levelOf, nodesOf, type Region } from '../diagram/diagram.js';
import { Outgrown } from '../diagram/store.js';
import type { Axis } from './axes.js';
import type { Cell } from './cells.js';
import { type Cube, coverOf } from './cover.js';
import type { Situations } from './situations.js';

/** What describing one region may cost. */
const bounds = { nodes: 100_000, steps: 1_000_000 };

/** The most tests a description may fall into; nobody reads more. */
const mostLines = 400;

/** Tests that together say `region`; `within` is where it matters. See `Situations.lines`. */
export function linesOf(situations: Situations, region: Region, within: Region): readonly string[] {
  const { store } = situations;
  if (region === store.nowhere) return [];
  if (region === within) return ['always'];
  const relevant = relevantCells(situations, within);
  const said = (low: Region): readonly string[][] | undefined =>
    covered(situations, low, within)?.map((cube) => atomsOf(situations, cube, relevant));
  const direct = said(region);
  const reverse = said(store.without(within, region));
  if (reverse !== undefined && (direct === undefined || isShorter(reverse, direct))) {
    return [reverse.map((atoms) => `not (${atoms.join(' and ')})`).join(' and ')];
  }
  const ways = direct ?? [atomsOf(situations, hullOf(situations, region), relevant)];
  return ways.map((atoms) => (atoms.length === 0 ? 'always' : atoms.join(' and ')));
}

/** Several tests as one. */
export function wordsOf(lines: readonly string[]): string {
  if (lines.length === 1) return lines[0] ?? 'always';
  return lines.map((line) => (line.includes(' and ') ? `(${line})` : line)).join(' or ');
}

/** Whether saying where something is not so is much shorter than saying where it is. */
function isShorter(reverse: readonly string[][], direct: readonly string[][]): boolean {
  return (reverse.length === 1 && direct.length > 2) || costOf(reverse) * 2 < costOf(direct);
}

function costOf(ways: readonly (readonly string[])[]): number {
  return ways.reduce((sum, atoms) => sum + 1 + atoms.length, 0);
}

function covered(situations: Situations, low: Region, within: Region): readonly Cube[] | undefined {
  const { store } = situations;
  const ordered = (level: number): boolean => situations.axes[level]?.kind === 'reading';
  try {
    return store.task(bounds, () => coverOf(store, low, store.or(low, store.not(within)), ordered, mostLines));
  } catch (error) {
    if (error instanceof Outgrown) return undefined;
    throw error;
  }
}

/** The smallest cube around a region: what is said of one that no list of tests of a bearable length can say. */
function hullOf(situations: Situations, region: Region): Cube {
  const used = relevantCells(situations, region);
  return new Map(
    situations.axes.flatMap((axis, level) => {
      const cells = used.get(level);
      if (cells === undefined) return [];
      if (axis.kind === 'observation') return [[level, cells] as const];
      const [low, high] = [Math.min(...cells), Math.max(...cells)];
      return [[level, new Set(Array.from({ length: high - low + 1 }, (_, index) => low + index))] as const];
    }),
  );
}

/**
 * For each axis that a region asks about, the cells in which it can hold. In a canonical diagram every node but `nowhere`
 * leads to a situation, so a cell is possible where a child is not `nowhere`, and all are where a way passes the axis by.
 */
function relevantCells(situations: Situations, region: Region): ReadonlyMap<number, ReadonlySet<number>> {
  const { store } = situations;
  const asked = new Map<number, Set<number>>();
  const passed = new Set<number>();
  const passBy = (from: number, to: number): void => {
    for (let level = from + 1; level < Math.min(to, store.sizes.length); level++) passed.add(level);
  };
  passBy(-1, levelOf(region));
  for (const node of nodesOf([region])) {
    if (node.kind === 'leaf') continue;
    const cells = asked.get(node.level) ?? new Set();
    asked.set(node.level, cells);
    for (const [cell, child] of node.children.entries()) {
      if (child === store.nowhere) continue;
      cells.add(cell);
      passBy(node.level, levelOf(child));
    }
  }
  for (const level of passed) asked.delete(level);
  return asked;
}

function atomsOf(situations: Situations, cube: Cube, relevant: ReadonlyMap<number, ReadonlySet<number>>): string[] {
  const { observations, readings } = situations.procedure.vocabulary;
  return [...observations, ...readings].flatMap(({ name }) => {
    const level = situations.levelOf(name);
    const axis = level === undefined ? undefined : situations.axes[level];
    const cells = level === undefined ? undefined : cube.get(level);
    if (level === undefined || axis === undefined || cells === undefined) return [];
    return axis.kind === 'observation'
      ? valuesAtom(axis, cells, relevant.get(level))
      : stretchAtoms(name, axis.cells, cells);
  });
}

/** `break is star, combination`, or the other way round where that is much shorter. */
function valuesAtom(
  axis: Axis & { readonly kind: 'observation' },
  cells: ReadonlySet<number>,
  relevant: ReadonlySet<number> | undefined,
): string[] {
  const possible = axis.values.filter((_, cell) => relevant === undefined || relevant.has(cell));
  const inside = possible.filter((value) => cells.has(axis.values.indexOf(value)));
  const outside = possible.filter((value) => !inside.includes(value));
  if (outside.length === 0) return [];
  return inside.length > 4 && outside.length < inside.length
    ? [`${axis.name} is not ${outside.join(', ')}`]
    : [`${axis.name} is ${inside.join(', ')}`];
}

function stretchAtoms(name: string, all: readonly Cell[], cells: ReadonlySet<number>): string[] {
  const low = Math.min(...cells);
  const high = Math.max(...cells);
  const [first, last] = [all[low], all[high]];
  if (first === undefined || last === undefined) return [];
  const atLow = low === 0 ? undefined : `${name} ${first.lowIncluded ? 'at least' : 'above'} ${first.lowText}`;
  const atHigh =
    high === all.length - 1 ? undefined : `${name} ${last.highIncluded ? 'at most' : 'below'} ${last.highText}`;
  if (atLow !== undefined && atHigh !== undefined && first.lowIncluded && last.highIncluded) {
    return [
      first.low === last.high ? `${name} is ${first.lowText}` : `${name} from ${first.lowText} to ${last.highText}`,
    ];
  }
  return [atLow, atHigh].filter((atom) => atom !== undefined);
}
