import { interpret } from '@quarrel/analysis';
import { type Procedure, stepsOf } from '@quarrel/model';
import {
  type Aspect,
  type AxisShown,
  type CellShown,
  type Coverage,
  type CoverageRegion,
  coverageOf,
  type Outcome,
  type Picked,
} from '@quarrel/pictures';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { procedures } from '../analysis/judge/arbitrary.js';
import { type Cells, cellsOf } from '../analysis/judge/cells.js';
import { lines } from '../analysis/judge/facts.js';
import { seed } from '../analysis/judge/seed.js';
import { picturedOf, timesAt, walkedFrom } from './walked.js';

const aspects = fc.constantFrom<Aspect>('choice', 'time');

test('every region of a coverage has the outcome that walks from all of its situations have', () => {
  fc.assert(
    fc.property(procedures(), aspects, fc.nat(), fc.boolean(), (procedure, by, pick, isFixed) => {
      fc.pre(interpret(procedure).kind === 'run');
      const cells = cellsOf(procedure);
      const some = cells.scenarios.filter((_, cell) => cells.covered[cell])[pick % cells.scenarios.length];
      const fixed = isFixed && some !== undefined ? some : {};
      const answer = coverageOf(picturedOf(procedure), { by, fixed });
      if (answer.kind === 'nothing') {
        expect(cells.covered).not.toContain(true);
        return;
      }
      const { coverage } = answer;
      expectTiled(coverage);
      const held = heldIn(coverage, fixed);
      for (const region of coverage.regions) expectOutcome(region, coverage, procedure, cells, held);
    }),
    { numRuns: 250, ...seed() },
  );
});

/** Every cell of the grid lies in one region, and no region could be joined to its neighbour on the right. */
function expectTiled({ across, down, regions }: Coverage): void {
  const [columns, rows] = [across?.cells.length ?? 1, down?.cells.length ?? 1];
  const found = regions.flatMap(({ left, top, width, height }) =>
    Array.from(
      { length: width * height },
      (_, index) => (top + Math.floor(index / width)) * columns + left + (index % width),
    ),
  );
  expect([...found].sort((a, b) => a - b)).toEqual(Array.from({ length: columns * rows }, (_, index) => index));
  for (const one of regions) {
    const next = regions.find(
      ({ left, top, height }) => left === one.left + one.width && top === one.top && height === one.height,
    );
    expect(next?.outcome).not.toEqual(one.outcome);
  }
}

/** The values that are fixed and not laid out along an axis. */
function heldIn({ across, down }: Coverage, fixed: Picked): Picked {
  return Object.fromEntries(Object.entries(fixed).filter(([name]) => name !== across?.name && name !== down?.name));
}

function expectOutcome(
  region: CoverageRegion,
  coverage: Coverage,
  procedure: Procedure,
  cells: Cells,
  held: Picked,
): void {
  const { across, down } = coverage;
  const isInside = (one: Picked): boolean =>
    isWithin(one, across, region.left, region.width) &&
    isWithin(one, down, region.top, region.height) &&
    Object.entries(held).every(([name, value]) => one[name] === value);
  const starts = cells.scenarios.filter((scenario, cell) => cells.covered[cell] && isInside(scenario));
  if (starts.length === 0) {
    expect(region).toMatchObject({ outcome: { kind: 'outside' } });
    expect(region.situation).toBeUndefined();
    return;
  }
  expect(isInside(region.situation?.picked ?? {})).toBe(true);
  const walked = walkedFrom(procedure, cells, isInside);
  if (walked === undefined) return;
  const end = timesAt(walked, lines.clock(lines.end));
  const expected: Outcome =
    coverage.by === 'time'
      ? { kind: 'time', ...(end === undefined ? {} : { total: end }) }
      : { kind: 'choice', ...taken(procedure, coverage.choice?.name, (line) => walked.where.has(line)) };
  const sorted =
    'things' in region.outcome ? { ...region.outcome, things: byName(region.outcome.things) } : region.outcome;
  expect(sorted).toEqual(expected);
}

function byName<T extends { readonly name: string }>(things: readonly T[]): readonly T[] {
  return [...things].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** What a choice gives at any of its uses. */
function taken(procedure: Procedure, choice: string | undefined, isSo: (line: string) => boolean) {
  const uses = stepsOf(procedure).flatMap((step, number) =>
    step.effects.flatMap((effect, index) =>
      effect.kind === 'with' && effect.isChoice && effect.thing === choice ? [{ number, index }] : [],
    ),
  );
  const given = procedure.vocabulary.things.filter(({ name }) =>
    uses.some(({ number, index }) => isSo(lines.takes(number, index, name))),
  );
  return {
    things: byName(given.map(({ name, label }) => ({ name, label }))),
    gap: uses.some(({ number, index }) => isSo(lines.gap(number, index))),
  };
}

function isWithin(one: Picked, axis: AxisShown | undefined, from: number, count: number): boolean {
  return axis === undefined || axis.cells.slice(from, from + count).some((cell) => holds(cell, one[axis.name]));
}

function holds(cell: CellShown, value: string | number | undefined): boolean {
  if (cell.kind === 'values') return cell.values.some(({ name }) => name === value);
  const [low, high, si] = [Number.parseFloat(cell.low.text), Number.parseFloat(cell.high.text), Number(value)];
  return (si > low || (si === low && cell.low.included)) && (si < high || (si === high && cell.high.included));
}
