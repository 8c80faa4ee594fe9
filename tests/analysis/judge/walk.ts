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
  readonly moments: (moment: string) => MomentNames;
  readonly body: (block: Block, ways: Ways) => Ways;
  readonly stop: (by: string, way: Way) => void;
}

/** What is the case at one moment of one way. */
export function noteMoment({ facts, moments }: Walk, moment: string, way: Way): void {
  const names = moments(moment);
  noteWhere(facts, names.reached, way.cell);
  noteClock(facts, names.clock, way.cell, now(way));
  for (const { state, values } of names.states) {
    const line = values.get(way.states[state] ?? '');
    if (line !== undefined) noteWhere(facts, line, way.cell);
  }
  for (const { condition, line } of names.mayNotKnow) {
    if (!way.known.has(condition)) noteWhere(facts, line, way.cell);
  }
}

/** The lines of one moment. */
export interface MomentNames {
  readonly reached: string;
  readonly clock: string;
  readonly states: readonly { readonly state: string; readonly values: ReadonlyMap<string, string> }[];
  readonly mayNotKnow: readonly { readonly condition: string; readonly line: string }[];
}

/** The lines of every moment, each put together once: a walk comes to one moment thousands of times. */
export function namesOf({ vocabulary }: Procedure): (moment: string) => MomentNames {
  const found = new Map<string, MomentNames>();
  return (moment) => {
    const before = found.get(moment);
    if (before !== undefined) return before;
    const names: MomentNames = {
      reached: lines.reached(moment),
      clock: lines.clock(moment),
      states: vocabulary.states.map(({ name, values }) => ({
        state: name,
        values: new Map(values.map((value) => [value.name, lines.state(moment, name, value.name)])),
      })),
      mayNotKnow: [...vocabulary.observations, ...vocabulary.readings].map(({ name }) => ({
        condition: name,
        line: lines.mayNotKnow(moment, name),
      })),
    };
    found.set(moment, names);
    return names;
  };
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
