import { type Branch, type ByScenario, type Leaf, levelOf, type Region } from './diagram.js';

/** What one task may cost before it is given up. */
export interface Bounds {
  /** The most nodes made. */
  readonly nodes: number;
  /** The most steps of all operations together. */
  readonly steps: number;
}

/** Thrown inside a task that outgrows its bounds; caught by whoever began the task, and never seen outside. */
export class Outgrown extends Error {
  /**
   * `widest`: the levels with the most nodes, widest first. `names`: what else is to blame, where it is not the diagrams.
   */
  constructor(
    readonly widest: readonly number[],
    readonly names: readonly string[] = [],
  ) {
    super('more than the bounds of the task allow');
  }
}

/** A function of two values with a memory of its own in every store it is used in: a pure function, defined once. */
export type Operation<A, B, C> = (a: A, b: B) => C;

/** A function of one value; as `Operation`. */
export type Mapping<A, B> = (a: A) => B;

/**
 * Makes and combines the diagrams of one order of axes. Leaf values are compared by identity: primitives, or interned
 * objects.
 */
export class Store {
  readonly #leaves = new Map<unknown, Leaf<unknown>>();
  readonly #branches = new Map<string, Branch<unknown>>();
  readonly #memories = new WeakMap<object, Map<number, ByScenario<unknown>>>();
  #nextId = 0;
  #idLimit = Number.POSITIVE_INFINITY;
  #stepsLeft = Number.POSITIVE_INFINITY;

  /** `sizes` gives the number of cells of each axis, in the order of the axes. */
  constructor(readonly sizes: readonly number[]) {}

  /** Does something that may cost at most `bounds`, else throws `Outgrown`. Tasks are not nested. */
  task<R>(bounds: Bounds, work: () => R): R {
    this.#idLimit = this.#nextId + bounds.nodes;
    this.#stepsLeft = bounds.steps;
    try {
      return work();
    } finally {
      this.#idLimit = Number.POSITIVE_INFINITY;
      this.#stepsLeft = Number.POSITIVE_INFINITY;
    }
  }

  /** Counts steps of work that no operation here sees, so that it is bounded too. */
  spend(steps: number): void {
    this.#stepsLeft -= steps;
    if (this.#stepsLeft < 0) throw new Outgrown(this.#widestLevels());
  }

  /** How many nodes have been made. */
  get made(): number {
    return this.#nextId;
  }

  readonly everywhere: Region = this.constant(true);
  readonly nowhere: Region = this.constant(false);

  /** The same value in every situation. */
  constant<T>(value: T): Leaf<T> {
    const known = this.#leaves.get(value);
    if (known !== undefined) return known as Leaf<T>;
    const leaf: Leaf<T> = { kind: 'leaf', id: this.#newId(), value };
    this.#leaves.set(value, leaf);
    return leaf;
  }

  /** The diagram that asks the axis at `level` and goes on with one child for each of its cells. */
  branch<T>(level: number, children: readonly ByScenario<T>[]): ByScenario<T> {
    const first = children[0];
    if (first === undefined) throw new RangeError('an axis has at least one cell');
    if (children.every((child) => child === first)) return first;
    let key = String(level);
    for (const child of children) key += `,${child.id}`;
    const known = this.#branches.get(key);
    if (known !== undefined) return known as Branch<T>;
    const branch: Branch<T> = { kind: 'branch', id: this.#newId(), level, children };
    this.#branches.set(key, branch);
    return branch;
  }

  /** True in the cells of one axis that are listed. */
  cells(level: number, cells: ReadonlySet<number>): Region {
    const size = this.sizes[level] ?? 1;
    return this.branch(
      level,
      Array.from({ length: size }, (_, cell) => (cells.has(cell) ? this.everywhere : this.nowhere)),
    );
  }

  /** `f` of the value, situation by situation. */
  map<A, B>(diagram: ByScenario<A>, f: Mapping<A, B>): ByScenario<B> {
    const memory = this.#memoryOf<B>(f);
    const visit = (node: ByScenario<A>): ByScenario<B> => {
      const known = memory.get(node.id);
      if (known !== undefined) return known;
      this.spend(1);
      const result =
        node.kind === 'leaf' ? this.constant(f(node.value)) : this.branch(node.level, node.children.map(visit));
      memory.set(node.id, result);
      return result;
    };
    return visit(diagram);
  }

  /** `f` of both values, situation by situation. */
  combine<A, B, C>(a: ByScenario<A>, b: ByScenario<B>, f: Operation<A, B, C>): ByScenario<C> {
    const memory = this.#memoryOf<C>(f);
    const visit = (x: ByScenario<A>, y: ByScenario<B>): ByScenario<C> => {
      const key = x.id * idSpan + y.id;
      const known = memory.get(key);
      if (known !== undefined) return known;
      this.spend(1);
      const result =
        x.kind === 'leaf' && y.kind === 'leaf'
          ? this.constant(f(x.value, y.value))
          : this.#descend([x, y], (cell) => visit(childAt(x, cell, y), childAt(y, cell, x)));
      memory.set(key, result);
      return result;
    };
    return visit(a, b);
  }

  /** `inside` where `region` holds, `outside` elsewhere. */
  choose<T>(region: Region, inside: ByScenario<T>, outside: ByScenario<T>): ByScenario<T> {
    if (inside === outside || region === this.everywhere) return inside;
    if (region === this.nowhere) return outside;
    const memory = new Map<string, ByScenario<T>>();
    const visit = (r: Region, x: ByScenario<T>, y: ByScenario<T>): ByScenario<T> => {
      if (x === y) return x;
      if (r.kind === 'leaf') return r.value ? x : y;
      const key = `${r.id},${x.id},${y.id}`;
      const known = memory.get(key);
      if (known !== undefined) return known;
      this.spend(1);
      const top = Math.min(r.level, levelOf(x), levelOf(y));
      const result = this.branch(
        top,
        Array.from({ length: this.sizes[top] ?? 1 }, (_, cell) =>
          visit(below(r, top, cell), below(x, top, cell), below(y, top, cell)),
        ),
      );
      memory.set(key, result);
      return result;
    };
    return visit(region, inside, outside);
  }

  /**
   * Forgets the axis at `level`: the values of its cells are joined by `join`, which has to be commutative and associative.
   */
  forget<T>(diagram: ByScenario<T>, level: number, join: Operation<T, T, T>): ByScenario<T> {
    const memory = new Map<number, ByScenario<T>>();
    const visit = (node: ByScenario<T>): ByScenario<T> => {
      if (levelOf(node) > level || node.kind === 'leaf') return node;
      const known = memory.get(node.id);
      if (known !== undefined) return known;
      this.spend(1);
      const result =
        node.level === level
          ? node.children.reduce((joined, child) => this.combine(joined, child, join))
          : this.branch(node.level, node.children.map(visit));
      memory.set(node.id, result);
      return result;
    };
    return visit(diagram);
  }

  and(a: Region, b: Region): Region {
    if (a === b || b === this.everywhere) return a;
    if (a === this.everywhere) return b;
    if (a === this.nowhere || b === this.nowhere) return this.nowhere;
    return a.id < b.id ? this.combine(a, b, both) : this.combine(b, a, both);
  }

  or(a: Region, b: Region): Region {
    if (a === b || b === this.nowhere) return a;
    if (a === this.nowhere) return b;
    if (a === this.everywhere || b === this.everywhere) return this.everywhere;
    return a.id < b.id ? this.combine(a, b, either) : this.combine(b, a, either);
  }

  not(a: Region): Region {
    return this.map(a, negation);
  }

  /** Where `a` holds and `b` does not. */
  without(a: Region, b: Region): Region {
    return this.combine(a, b, butNot);
  }

  /** The value where every axis is in the cell given for its level. */
  valueAt<T>(diagram: ByScenario<T>, cells: readonly number[]): T {
    let node = diagram;
    while (node.kind === 'branch') {
      const child = node.children[cells[node.level] ?? 0];
      if (child === undefined) throw new RangeError(`no such cell on axis ${node.level}`);
      node = child;
    }
    return node.value;
  }

  /** Every branch made so far. */
  branches(): Iterable<Branch<unknown>> {
    return this.#branches.values();
  }

  #descend<T>(tops: readonly ByScenario<unknown>[], child: (cell: number) => ByScenario<T>): ByScenario<T> {
    const level = Math.min(...tops.map(levelOf));
    return this.branch(
      level,
      Array.from({ length: this.sizes[level] ?? 1 }, (_, cell) => child(cell)),
    );
  }

  #memoryOf<C>(f: object): Map<number, ByScenario<C>> {
    let memory = this.#memories.get(f);
    if (memory === undefined) {
      memory = new Map();
      this.#memories.set(f, memory);
    }
    return memory as Map<number, ByScenario<C>>;
  }

  #newId(): number {
    if (this.#nextId >= this.#idLimit) throw new Outgrown(this.#widestLevels());
    return this.#nextId++;
  }

  #widestLevels(): readonly number[] {
    const widths = new Map<number, number>();
    for (const branch of this.#branches.values()) widths.set(branch.level, (widths.get(branch.level) ?? 0) + 1);
    return [...widths].sort((a, b) => b[1] - a[1]).map(([level]) => level);
  }
}

/** Ids stay below this, so that two of them make one exact number. */
const idSpan = 2 ** 26;

const both = (a: boolean, b: boolean): boolean => a && b;
const either = (a: boolean, b: boolean): boolean => a || b;
const butNot = (a: boolean, b: boolean): boolean => a && !b;
const negation = (a: boolean): boolean => !a;

/** What hangs below `node` for one cell of the axis at the upper of both roots. */
function childAt<T>(node: ByScenario<T>, cell: number, other: ByScenario<unknown>): ByScenario<T> {
  return below(node, Math.min(levelOf(node), levelOf(other)), cell);
}

function below<T>(node: ByScenario<T>, level: number, cell: number): ByScenario<T> {
  if (node.kind === 'leaf' || node.level !== level) return node;
  const child = node.children[cell];
  if (child === undefined) throw new RangeError(`no cell ${cell} on axis ${level}`);
  return child;
}
