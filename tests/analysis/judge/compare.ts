import type { Scenario } from '@quarrel/model';
import type { Cells } from './cells.js';
import type { Facts, Times } from './facts.js';

/**
 * Where two sides differ, in words, one line for each record; none where they agree in all. A time over all situations is
 * compared where the judge has one.
 */
export function differences(engine: Facts, judge: Facts, cells: Cells): readonly string[] {
  return [
    ...bothSides(engine.where, judge.where).flatMap(([line, ours, theirs]) => {
      const more = [...(ours ?? [])].filter((cell) => theirs?.has(cell) !== true);
      const less = [...(theirs ?? [])].filter((cell) => ours?.has(cell) !== true);
      return [
        ...say(line, 'the engine alone says so', more, cells),
        ...say(line, 'the judge alone says so', less, cells),
      ];
    }),
    ...bothSides(engine.clocks, judge.clocks).flatMap(([line, ours, theirs]) => {
      const numbers = new Set([...(ours?.keys() ?? []), ...(theirs?.keys() ?? [])]);
      const apart = [...numbers].filter((cell) => !same(ours?.get(cell), theirs?.get(cell)));
      const first = apart[0] ?? 0;
      return say(line, `engine ${times(ours?.get(first))}, judge ${times(theirs?.get(first))}`, apart, cells);
    }),
    ...[...judge.spans].flatMap(([line, theirs]) => {
      const ours = engine.spans.get(line);
      return same(ours, theirs) ? [] : [`${line}: engine ${times(ours)}, judge ${times(theirs)}`];
    }),
  ];
}

/** What to print when the two sides differ. */
export function report(found: readonly string[]): string {
  const shown = found.slice(0, 12);
  const rest = found.length > shown.length ? [`… and ${found.length - shown.length} more`] : [];
  return [`${found.length} records differ:`, ...shown, ...rest].join('\n');
}

function bothSides<T>(ours: ReadonlyMap<string, T>, theirs: ReadonlyMap<string, T>) {
  const names = new Set([...ours.keys(), ...theirs.keys()]);
  return [...names].map((name) => [name, ours.get(name), theirs.get(name)] as const);
}

function same(a: Times | undefined, b: Times | undefined): boolean {
  return a?.least === b?.least && a?.most === b?.most;
}

function times(interval: Times | undefined): string {
  return interval === undefined ? 'nothing' : `${interval.least}..${interval.most} s`;
}

function say(line: string, what: string, where: readonly number[], { scenarios }: Cells): readonly string[] {
  if (where.length === 0) return [];
  const named = where.slice(0, 2).map((cell) => inWords(scenarios[cell] ?? {}));
  return [`${line}: ${what}, in ${where.length} situations: ${named.join('; ')}`];
}

function inWords(scenario: Scenario): string {
  return Object.entries(scenario)
    .map(([name, value]) => `${name}=${value}`)
    .join(', ');
}
