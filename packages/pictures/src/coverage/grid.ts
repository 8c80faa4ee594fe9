import { type Axis, type Region, type Run, sizeOf } from '@quarrel/analysis';
import type { Condition, Procedure } from '@quarrel/model';
import { cellOf, completed, type Kept, situationShown } from '../situation.js';
import { testsOfCell } from '../suppose.js';
import { cellShown } from './cells.js';
import type { AxisShown, Coverage, CoverageRegion, Outcome } from './coverage.js';
import type { Looking, Settled } from './looks.js';
import type { Telling } from './outcomes.js';
import { rectanglesOf, stretchesOf } from './rectangles.js';

/** What a grid is made of. */
export interface Asking {
  readonly procedure: Procedure;
  readonly run: Run;
  readonly fixed: Kept;
  /** What goes across and what goes down, cut where what is shown can change. */
  readonly sides: readonly { readonly condition: Condition; readonly axis: Axis | undefined }[];
  readonly looking: Looking;
  readonly telling: Telling;
}

/** One side of the grid; without a condition it has a single cell that is everywhere. */
interface Side {
  readonly condition?: Condition;
  readonly axis?: Axis;
  readonly cells: readonly { readonly settled: readonly Settled[]; readonly region: Region }[];
}

/** The grid; `undefined` where some situations alone are too tangled to be followed. */
export function gridOf(asking: Asking): Pick<Coverage, 'across' | 'down' | 'regions'> | undefined {
  const { run, fixed, looking, telling, procedure } = asking;
  const { store } = run.situations;
  const [across, down] = [sideOf(asking.sides[0], run), sideOf(asking.sides[1], run)];
  const held = fixedTests(asking);
  const outcomes: (readonly Outcome[])[] = [];
  for (const row of down.cells) {
    const line: Outcome[] = [];
    for (const column of across.cells) {
      const start = store.and(fixed.region, store.and(row.region, column.region));
      const look = start === store.nowhere ? outside : looking([...held, ...row.settled, ...column.settled]);
      if (look === undefined) return undefined;
      line.push(look === outside ? notCovered : telling(look));
    }
    outcomes.push(line);
  }
  const keys = outcomes.map((line) => line.map((outcome) => JSON.stringify(outcome)));
  const columns = stretchesFor(across, keys[0]?.map((_, column) => keys.map((line) => line[column] ?? '')) ?? []);
  const rows = stretchesFor(down, keys);
  const merged = rows.map((row) => columns.map((column) => keys[row]?.[column] ?? ''));
  const regions = rectanglesOf(merged).map((rectangle): CoverageRegion => {
    const { left, top, width, height } = rectangle;
    const regionOf = ({ cells }: Side, from: number, to: number): Region =>
      cells.slice(from, to).reduce((joined, cell) => store.or(joined, cell.region), store.nowhere);
    const region = store.and(
      regionOf(across, columns[left] ?? 0, columns[left + width] ?? across.cells.length),
      regionOf(down, rows[top] ?? 0, rows[top + height] ?? down.cells.length),
    );
    const inside = { picked: fixed.picked, region: store.and(region, fixed.region), declined: [] };
    const scenario = completed(run.situations, inside);
    const outcome = outcomes[rows[top] ?? 0]?.[columns[left] ?? 0] ?? notCovered;
    return {
      ...rectangle,
      outcome,
      circumstance: run.situations.describe(region, outcome.kind === 'outside' ? store.everywhere : fixed.region),
      ...(scenario === undefined ? {} : { situation: situationShown(procedure, scenario) }),
    };
  });
  const [top, side] = [shown(across, columns), shown(down, rows)];
  return {
    ...(top === undefined ? {} : { across: top }),
    ...(side === undefined ? {} : { down: side }),
    regions,
  };
}

const outside = Symbol('outside of what is covered');
const notCovered: Outcome = { kind: 'outside' };
const outsideKey = JSON.stringify(notCovered);

/** All situations of a cell go the same way, so that it stands for the value. */
function fixedTests({ fixed, procedure, run }: Asking): readonly Settled[] {
  const { observations, readings } = procedure.vocabulary;
  return [...observations, ...readings].flatMap((condition) => {
    const level = run.situations.levelOf(condition.name);
    const axis = level === undefined ? undefined : run.situations.axes[level];
    const value = fixed.picked[condition.name];
    if (axis === undefined || value === undefined) return [];
    return [{ condition, tests: testsOfCell(condition, axis, cellOf(axis, value)) }];
  });
}

function sideOf(side: Asking['sides'][number] | undefined, { situations }: Run): Side {
  const { store } = situations;
  const { condition, axis } = side ?? {};
  if (condition === undefined || axis === undefined) return { cells: [{ settled: [], region: store.everywhere }] };
  const cells = Array.from({ length: sizeOf(axis) }, (_, cell) => {
    const tests = testsOfCell(condition, axis, cell);
    const region = tests.reduce((inside, test) => store.and(inside, situations.region(test).holds), store.everywhere);
    return { settled: [{ condition, tests }], region };
  });
  return { condition, axis, cells };
}

/** Stretches of a reading between which nothing changes are one, and so are values of an observation that are not covered. */
function stretchesFor({ axis, cells }: Side, lines: readonly (readonly string[])[]): readonly number[] {
  const starts = stretchesOf(lines);
  if (axis?.kind === 'reading') return starts;
  const isOutside = (index: number): boolean => lines[index]?.every((key) => key === outsideKey) ?? false;
  return cells.map((_, index) => index).filter((index) => starts.includes(index) || !isOutside(index));
}

function shown({ condition, axis, cells }: Side, starts: readonly number[]): AxisShown | undefined {
  if (condition === undefined || axis === undefined) return undefined;
  const found = starts.map((first, index) =>
    cellShown(condition, axis, first, (starts[index + 1] ?? cells.length) - 1),
  );
  return { name: condition.name, label: condition.label, cells: found };
}
