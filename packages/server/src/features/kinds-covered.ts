import { type ByScenario, levelOf, type Region, type Run } from '@quarrel/analysis';
import { flowIn, type Procedure, subjectsOf, type Test } from '@quarrel/model';

/**
 * How many kinds of situation a procedure covers: situations that differ in a condition it speaks of, and of readings only those
 * that some test of it, or of what is asked of it, tells apart.
 */
export function kindsCovered(procedure: Procedure, { situations, covered }: Run): bigint {
  const spoken = spokenOf(procedure);
  const sizes = situations.store.sizes.map((size, level) =>
    spoken.has(situations.axes[level]?.name ?? '') ? BigInt(size) : 1n,
  );
  const passed = (from: number, to: number): bigint =>
    sizes.slice(from, Math.min(to, sizes.length)).reduce((product, size) => product * size, 1n);
  const counts = new Map<number, bigint>();
  /** Over the axes from the region's own on. */
  const count = (region: Region): bigint => {
    if (region.kind === 'leaf') return region.value ? 1n : 0n;
    const before = counts.get(region.id);
    if (before !== undefined) return before;
    const below = (child: ByScenario<boolean>): bigint => passed(region.level + 1, levelOf(child)) * count(child);
    const sum = region.children.reduce((total, child) => total + below(child), 0n);
    counts.set(region.id, sum);
    return sum;
  };
  return passed(0, levelOf(covered)) * count(covered);
}

/** The conditions that a procedure asks about or finds out. */
function spokenOf(procedure: Procedure): ReadonlySet<string> {
  const tests: Test[] = [
    ...procedure.covers,
    ...procedure.choices.flatMap(({ cases }) => cases.map(({ test }) => test)),
  ];
  const found: string[] = [];
  for (const part of flowIn(procedure.body)) {
    if (part.kind === 'when') tests.push(...part.cases.map(({ test }) => test));
    if (part.kind !== 'step') continue;
    for (const effect of part.effects) {
      if (effect.kind === 'observe' || effect.kind === 'read') found.push(effect.condition);
    }
  }
  return new Set([...tests.flatMap(subjectsOf), ...found]);
}

/** `1 kind`, `40,960 kinds`, `about 3.2 million kinds`. */
export function countInWords(count: bigint): string {
  if (count === 1n) return '1 kind';
  if (count < 1_000_000n) return `${String(count).replace(/\B(?=(\d{3})+$)/g, ',')} kinds`;
  const scales = [
    ['million', 1e6],
    ['billion', 1e9],
    ['trillion', 1e12],
  ] as const;
  const value = Number(count);
  const [word, scale] = scales.findLast(([, size]) => value >= size) ?? scales[0];
  return value >= 1e15
    ? 'more than a thousand trillion kinds'
    : `about ${Number((value / scale).toPrecision(2))} ${word} kinds`;
}
