import type { Block, Procedure, Rule, Scenario, Step, Test } from '@quarrel/model';
import { subjectsOf } from '@quarrel/model';
import { outcomes } from './asking.js';
import type { Cells } from './cells.js';
import { type Facts, lines, noteClock, noteWhere, type Times } from './facts.js';
import type { Way, Ways } from './ways.js';

/** Thrown where there is too much to walk through. */
export class TooLong extends Error {}

/** What the judge needs to know while it walks. */
export interface Walk {
  readonly procedure: Procedure;
  readonly cells: Cells;
  readonly facts: Facts;
  readonly stepNumbers: ReadonlyMap<Step, number>;
  readonly responses: readonly { readonly rule: Rule; readonly trigger: string; readonly response: string }[];
  /** Acts that a precedence or an absence speaks of. */
  readonly actsAskedAbout: readonly string[];
  readonly body: (block: Block, ways: Ways) => Ways;
  readonly stop: (by: string, way: Way) => void;
  /** Called for every step of every way, so that an endless walk is given up. */
  readonly count: () => void;
}

/** What is the case at one moment of one way. */
export function noteMoment({ facts, procedure }: Walk, moment: string, way: Way): void {
  noteWhere(facts, lines.reached(moment), way.cell);
  noteClock(facts, lines.clock(moment), way.cell, now(way));
  for (const [state, value] of Object.entries(way.states)) {
    noteWhere(facts, lines.state(moment, state, value), way.cell);
  }
  for (const { name } of [...procedure.vocabulary.observations, ...procedure.vocabulary.readings]) {
    if (!way.known.has(name)) noteWhere(facts, lines.mayNotKnow(moment, name), way.cell);
  }
}

/** How `test` may come out in this way now. */
export function asks(walk: Walk, test: Test, way: Way): readonly boolean[] {
  const scenario: Scenario = walk.cells.scenarios[way.cell] ?? {};
  return outcomes(test, (subject) => way.states[subject] ?? scenario[subject]);
}

/** Whether a rule with this `when` asks anything in this way now. */
export function isAsked(walk: Walk, when: Test | undefined, way: Way): boolean {
  return when === undefined || asks(walk, when, way).includes(true);
}

/** The conditions that `test` speaks of and this way does not know. */
export function unread({ procedure }: Walk, test: Test, way: Way): readonly string[] {
  const { observations, readings } = procedure.vocabulary;
  const conditions = new Set([...observations, ...readings].map((condition) => condition.name));
  return subjectsOf(test).filter((subject) => conditions.has(subject) && !way.known.has(subject));
}

const nothing: Times = { least: 0, most: 0 };

export function now(way: Way): Times {
  return way.clocks[0] ?? nothing;
}

/** The time since the innermost stretch began. */
export function stretch(way: Way): Times {
  return way.clocks.at(-1) ?? nothing;
}

export function intoStretch(way: Way): Way {
  return { ...way, clocks: [...way.clocks, nothing] };
}

export function outOfStretch(way: Way): Way {
  return { ...way, clocks: way.clocks.slice(0, -1) };
}
