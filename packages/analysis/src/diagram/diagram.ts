/**
 * A value that depends on the situation: a decision diagram over the axes of a `Store`, with values at its leaves (Bryant,
 * "Graph-Based Algorithms for Boolean Function Manipulation", IEEE ToC 1986; several leaf values: Fujita, McGeer and Yang,
 * FMSD 1997).
 *
 * Canonical form: on every way down, axes come in the store's order, each at most once; no branch has all its children the
 * same; no two nodes of a store are alike. So two diagrams of one store mean the same exactly when they are one object.
 */
export type ByScenario<T> = Leaf<T> | Branch<T>;

/** Where something is so: a set of situations. */
export type Region = ByScenario<boolean>;

export interface Leaf<T> {
  readonly kind: 'leaf';
  readonly id: number;
  readonly value: T;
}

export interface Branch<T> {
  readonly kind: 'branch';
  readonly id: number;
  /** Position of the axis in the store's order; lower is nearer to the root. */
  readonly level: number;
  /** One for every cell of the axis. */
  readonly children: readonly ByScenario<T>[];
}

/** The level of a diagram's root; leaves lie below every axis. */
export function levelOf(diagram: ByScenario<unknown>): number {
  return diagram.kind === 'leaf' ? Number.POSITIVE_INFINITY : diagram.level;
}

/** Every node of some diagrams, each once, roots before what hangs below them. */
export function* nodesOf(roots: Iterable<ByScenario<unknown>>): Generator<ByScenario<unknown>> {
  const seen = new Set<number>();
  const waiting = [...roots];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (seen.has(node.id)) continue;
    seen.add(node.id);
    yield node;
    if (node.kind === 'branch') waiting.push(...node.children);
  }
}
