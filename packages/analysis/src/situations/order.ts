/** Names that are asked about together. */
export type Bond = readonly string[];

/**
 * An order in which names bound together stand close: the size of a decision diagram depends on it. Chains are grown
 * greedily, the strongest bond first, each joined end to end so that the two names it binds come as near as they can.
 * A bond of n names pulls on each pair with 1/(n − 1). Names without bonds stay where they were.
 */
export function arrange(names: readonly string[], bonds: readonly Bond[]): readonly string[] {
  const place = new Map(names.map((name, index) => [name, index]));
  const chains = new Map<string, string[]>(names.map((name) => [name, [name]]));
  for (const [a, b] of strongestFirst(pullsOf(bonds, place), place)) {
    const [one, other] = [chains.get(a), chains.get(b)];
    if (one === undefined || other === undefined || one === other) continue;
    const joined = closest(one, other, a, b);
    for (const name of joined) chains.set(name, joined);
  }
  return [...new Set(names.map((name) => chains.get(name) ?? [name]))].flat();
}

type Pair = readonly [a: string, b: string];

function pullsOf(
  bonds: readonly Bond[],
  place: ReadonlyMap<string, number>,
): ReadonlyMap<string, { pair: Pair; pull: number }> {
  const pulls = new Map<string, { pair: Pair; pull: number }>();
  for (const bond of bonds) {
    // A bond of very many names says little about any two of them, and would cost the square of its length.
    if (bond.length > 24) continue;
    for (const [index, first] of bond.entries()) {
      for (const second of bond.slice(index + 1)) {
        const pair: Pair = (place.get(first) ?? 0) < (place.get(second) ?? 0) ? [first, second] : [second, first];
        const key = pair.join(' ');
        const known = pulls.get(key)?.pull ?? 0;
        pulls.set(key, { pair, pull: known + 1 / (bond.length - 1) });
      }
    }
  }
  return pulls;
}

function strongestFirst(
  pulls: ReadonlyMap<string, { pair: Pair; pull: number }>,
  place: ReadonlyMap<string, number>,
): readonly Pair[] {
  const at = (name: string): number => place.get(name) ?? 0;
  return [...pulls.values()]
    .sort((x, y) => y.pull - x.pull || at(x.pair[0]) - at(y.pair[0]) || at(x.pair[1]) - at(y.pair[1]))
    .map(({ pair }) => pair);
}

/** Joins two chains, either way round each, so that `a` of the one and `b` of the other stand closest. */
function closest(one: readonly string[], other: readonly string[], a: string, b: string): string[] {
  const ways = [one, [...one].reverse()].flatMap((left) =>
    [other, [...other].reverse()].map((right) => [...left, ...right]),
  );
  const distance = (way: readonly string[]): number => Math.abs(way.indexOf(a) - way.indexOf(b));
  return ways.reduce((best, way) => (distance(way) < distance(best) ? way : best));
}
