import { interpret } from '@quarrel/analysis';
import type { Procedure } from '@quarrel/model';
import { cellsOf } from './cells.js';
import { engineFacts, questionsOf } from './engine-facts.js';
import type { Facts } from './facts.js';
import { judge } from './naive.js';
import { act, becomes, is, observation, reading, state } from './plain.js';

/** Where each side says that something is so, as `b=star t=10`; the worked cases below are asked of both. */
export const sides: readonly (readonly [string, (procedure: Procedure) => Answers])[] = [
  ['the judge', byJudge],
  ['the engine', byEngine],
];

export interface Answers {
  readonly where: (line: string) => readonly string[];
  readonly clock: (line: string) => Readonly<Record<string, readonly [number, number]>>;
  readonly span: (line: string) => readonly [number, number] | undefined;
}

function answersOf(facts: Facts, cells: ReturnType<typeof cellsOf>): Answers {
  const named = (cell: number): string => Object.values(cells.scenarios[cell] ?? {}).join(' ');
  return {
    where: (line) => [...(facts.where.get(line) ?? [])].sort((a, b) => a - b).map(named),
    clock: (line) =>
      Object.fromEntries(
        [...(facts.clocks.get(line) ?? [])].map(([cell, { least, most }]) => [named(cell), [least, most]]),
      ),
    span: (line) => {
      const times = facts.spans.get(line);
      return times === undefined ? undefined : [times.least, times.most];
    },
  };
}

function byJudge(given: Procedure): Answers {
  const cells = cellsOf(given);
  const facts = judge(given, cells);
  if (facts === undefined) throw new Error('a worked case is short');
  return answersOf(facts, cells);
}

function byEngine(given: Procedure): Answers {
  const cells = cellsOf(given);
  const found = interpret(given, questionsOf(given));
  if (found.kind !== 'run') throw new Error('a worked case is simple');
  return answersOf(engineFacts(found.run, given, cells), cells);
}

export const shape = observation('b', 'eye', 'star', 'crack');
export const warmth = reading('t', 0, 30);
export const cavity = state('cavity', 'empty', 'filled', 'cured');
export const seal = state('seal', 'off', 'seated', 'tight');
export const press = act('press', { makes: [becomes('cavity', 'filled')] });
export const cure = act('cure', { needs: [is('cavity', 'filled')], makes: [becomes('cavity', 'cured')] });
export const plainActs = [press, cure, act('wipe'), act('look')];
export const all = ['eye', 'star', 'crack'];
export const infinite = Number.POSITIVE_INFINITY;
