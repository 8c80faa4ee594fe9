import type { Procedure, Scenario, Span, Test } from '@quarrel/model';
import { type ByScenario, nodesOf, type Region } from '../diagram/diagram.js';
import { Store } from '../diagram/store.js';
import { type Axis, sizeOf } from './axes.js';
import { cellContains, cellSatisfies, cellWithin } from './cells.js';
import { linesOf, wordsOf } from './describe.js';
import { typicalScenario } from './typical.js';

/** Where a test holds and where it fails; a test that could not be read may do either anywhere. */
export interface Verdict {
  readonly holds: Region;
  readonly fails: Region;
}

/** The situations a procedure can meet: its conditions as axes, its tests as regions, and regions back in words. */
export class Situations {
  readonly store: Store;
  readonly axes: readonly Axis[];
  readonly #levels: ReadonlyMap<string, number>;
  readonly #verdicts = new WeakMap<Test, Verdict>();
  readonly #words = new Map<string, readonly string[]>();

  /** `axes` are those of the procedure (`axesOf`), in any order. */
  constructor(
    readonly procedure: Procedure,
    axes: readonly Axis[],
  ) {
    this.axes = axes;
    this.store = new Store(this.axes.map(sizeOf));
    this.#levels = new Map(this.axes.map((axis, level) => [axis.name, level]));
  }

  /** The level of a condition's axis; `undefined` for names of anything else. */
  levelOf(condition: string): number | undefined {
    return this.#levels.get(condition);
  }

  /** Where a test on conditions holds. Throws a `RangeError` for a value at which no axis is cut. */
  region(test: Test): Verdict {
    let verdict = this.#verdicts.get(test);
    if (verdict === undefined) {
      verdict = this.#judge(test);
      this.#verdicts.set(test, verdict);
    }
    return verdict;
  }

  /** Where a reading lies in a span, both ends included. */
  spanRegion(reading: string, span: Pick<Span, 'least' | 'most'>): Region {
    return this.#cellsWhere(reading, (axis, cell) => {
      const stretch = axis.kind === 'reading' ? axis.cells[cell] : undefined;
      return stretch !== undefined && cellWithin(stretch, span);
    });
  }

  holdsIn(region: Region, scenario: Scenario): boolean {
    return this.valueIn(region, scenario);
  }

  valueIn<T>(diagram: ByScenario<T>, scenario: Scenario): T {
    return this.store.valueAt(
      diagram,
      this.axes.map((axis) => cellIn(axis, scenario)),
    );
  }

  /** Each distinct value that a diagram takes inside a region, with where it takes it; in a stable order. */
  values<T>(diagram: ByScenario<T>, within: Region): readonly { readonly value: T; readonly region: Region }[] {
    return this.distinct(diagram, within).map((value) => ({
      value,
      region: this.store.and(
        within,
        this.store.map(diagram, (other) => other === value),
      ),
    }));
  }

  /** Each distinct value that a diagram takes inside a region; in a stable order. */
  distinct<T>(diagram: ByScenario<T>, within: Region): readonly T[] {
    const masked = this.store.choose<T | typeof outside>(within, diagram, this.store.constant(outside));
    const found = new Set<T>();
    for (const node of nodesOf([masked]))
      if (node.kind === 'leaf' && node.value !== outside) found.add(node.value as T);
    return [...found];
  }

  /** A situation of the region that a person would think of first; `undefined` when it is empty. */
  typical(region: Region): Scenario | undefined {
    return typicalScenario(this, region);
  }

  /**
   * The region as a test of the language, as short as can be found: equal to `region` wherever `within` holds, whatever it
   * says elsewhere. `always` where they are the same.
   */
  describe(region: Region, within: Region): string {
    return wordsOf(this.lines(region, within));
  }

  /** The same as separate tests, one for each way it can happen; none for an empty region. */
  lines(region: Region, within: Region): readonly string[] {
    const key = `${region.id},${within.id}`;
    let lines = this.#words.get(key);
    if (lines === undefined) {
      lines = linesOf(this, this.store.and(region, within), within);
      this.#words.set(key, lines);
    }
    return lines;
  }

  #judge(test: Test): Verdict {
    const { store } = this;
    switch (test.kind) {
      case 'always':
        return { holds: store.everywhere, fails: store.nowhere };
      case 'unknown':
        return { holds: store.everywhere, fails: store.everywhere };
      case 'not': {
        const inner = this.region(test.test);
        return { holds: inner.fails, fails: inner.holds };
      }
      case 'and':
      case 'or': {
        const parts = test.tests.map((part) => this.region(part));
        const all = (pick: (part: Verdict) => Region): Region =>
          parts.reduce((joined, part) => store.and(joined, pick(part)), store.everywhere);
        const some = (pick: (part: Verdict) => Region): Region =>
          parts.reduce((joined, part) => store.or(joined, pick(part)), store.nowhere);
        return test.kind === 'and'
          ? { holds: all((part) => part.holds), fails: some((part) => part.fails) }
          : { holds: some((part) => part.holds), fails: all((part) => part.fails) };
      }
      case 'is':
        return this.#exact(
          this.#cellsWhere(
            test.subject,
            (axis, cell) =>
              axis.kind === 'observation' && test.values.includes(axis.values[cell] ?? '') !== test.negated,
          ),
        );
      case 'compare':
        return this.#exact(
          this.#cellsWhere(test.subject, (axis, cell) => {
            const stretch = axis.kind === 'reading' ? axis.cells[cell] : undefined;
            return stretch !== undefined && cellSatisfies(stretch, test.comparison, test.quantity.si);
          }),
        );
      case 'between':
        return this.#exact(this.spanRegion(test.subject, { least: test.low, most: test.high }));
    }
  }

  #exact(holds: Region): Verdict {
    return { holds, fails: this.store.not(holds) };
  }

  #cellsWhere(condition: string, keep: (axis: Axis, cell: number) => boolean): Region {
    const level = this.#levels.get(condition);
    const axis = level === undefined ? undefined : this.axes[level];
    if (level === undefined || axis === undefined) throw new RangeError(`no condition is called ${condition}`);
    const cells = Array.from({ length: sizeOf(axis) }, (_, cell) => cell);
    return this.store.cells(level, new Set(cells.filter((cell) => keep(axis, cell))));
  }
}

/** Marks what lies outside a region while values are gathered inside it. */
const outside = Symbol('outside');

function cellIn(axis: Axis, scenario: Scenario): number {
  const value = scenario[axis.name];
  const cell =
    axis.kind === 'observation'
      ? axis.values.indexOf(String(value))
      : axis.cells.findIndex((one) => typeof value === 'number' && cellContains(one, value));
  if (cell < 0) throw new RangeError(`${axis.name} cannot be ${value}`);
  return cell;
}
