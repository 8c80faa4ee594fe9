import type { StateValues } from './asking.js';
import { both, type Times } from './facts.js';

/**
 * One way the work can go, at one moment. Runs that agree in all that decides how they go on are followed as one: where they
 * differ, the clocks keep the least and the most of all, and `owed` keeps what any of them owes.
 */
export interface Way {
  /** The current situation, by its number. */
  readonly cell: number;
  readonly known: ReadonlySet<string>;
  readonly states: StateValues;
  /** Of the acts done, those that a rule asks about. */
  readonly done: ReadonlySet<string>;
  readonly announced: ReadonlySet<string>;
  /** The time since the work began, and since each stretch around this moment began: a repeat, what is done meanwhile. */
  readonly clocks: readonly Times[];
  /** How many holds, one within the other, are running. */
  readonly holds: number;
  readonly owed: ReadonlyMap<string, Debt>;
}

/** An answer that is owed, since one step, in the situation in which that step did what triggers it. */
export interface Debt {
  readonly response: number;
  readonly step: number;
  readonly effect: number;
  readonly cell: number;
  /** How many holds were running when it was triggered, or are still running of those. */
  readonly depth: number;
  /** The most seconds since the start of that step. */
  readonly elapsed: number;
}

export type Ways = ReadonlyMap<string, Way>;

export function together(ways: Iterable<Way>): Ways {
  const found = new Map<string, Way>();
  for (const way of ways) {
    const name = nameOf(way);
    const other = found.get(name);
    found.set(name, other === undefined ? way : joined(other, way));
  }
  return found;
}

export function joined(a: Way, b: Way): Way {
  return {
    ...a,
    clocks: a.clocks.map((times, index) => both(times, b.clocks[index] ?? times)),
    owed: union(a.owed, b.owed),
  };
}

/** What decides how a run goes on. */
function nameOf({ cell, known, states, done, announced }: Way): string {
  return `${cell}|${inOrder(known)}|${Object.values(states).join(',')}|${inOrder(done)}|${inOrder(announced)}`;
}

const namesOfSets = new WeakMap<ReadonlySet<string>, string>();

/** The names of a set, whatever order they came in. Ways share their sets, so each is put in order once. */
function inOrder(names: ReadonlySet<string>): string {
  const before = namesOfSets.get(names);
  if (before !== undefined) return before;
  const found = [...names].sort().join(',');
  namesOfSets.set(names, found);
  return found;
}

function union(a: Way['owed'], b: Way['owed']): Way['owed'] {
  if (b.size === 0) return a;
  if (a.size === 0) return b;
  return debts([...a.values(), ...b.values()]);
}

export function debts(all: Iterable<Debt>): ReadonlyMap<string, Debt> {
  const found = new Map<string, Debt>();
  for (const debt of all) {
    const name = debtName(debt);
    const other = found.get(name);
    if (other === undefined || other.elapsed < debt.elapsed) found.set(name, debt);
  }
  return found;
}

export function debtName({ response, step, effect, cell, depth }: Debt): string {
  return `${response}|${step}|${effect}|${cell}|${depth}`;
}

export function plus(a: Times, b: Times): Times {
  return { least: a.least + b.least, most: a.most + b.most };
}

/** The way after `times` have passed. */
export function later(way: Way, times: Times): Way {
  if (times.most === 0) return way;
  return {
    ...way,
    clocks: way.clocks.map((clock) => plus(clock, times)),
    owed: new Map([...way.owed].map(([name, debt]) => [name, { ...debt, elapsed: debt.elapsed + times.most }])),
  };
}
