import type { Region, Run } from '@quarrel/analysis';
import { type Procedure, type Severity, stepsOf } from '@quarrel/model';
import { happens, type Placed } from '../findings.js';
import { thingNamed } from '../timeline/things.js';
import { timesOf } from '../times.js';
import type { Outcome } from './coverage.js';

/** Some situations of a job: a run, and the current situations of it that count. */
export interface Look {
  readonly run: Run;
  readonly within: Region;
}

/** Tells what comes out of a job in some of the situations that it can start in. */
export type Telling = (look: Look) => Outcome;

/** What a choice gives, wherever it is made. */
export function tellChoice(procedure: Procedure, choice: string): Telling {
  const uses = stepsOf(procedure).flatMap((step, number) =>
    step.effects.flatMap((effect, index) =>
      effect.kind === 'with' && effect.isChoice && effect.thing === choice ? [{ number, index }] : [],
    ),
  );
  const cases = procedure.choices.find(({ name }) => name === choice);
  const order = [...(cases?.cases ?? []).map(({ thing }) => thing), cases?.otherwise?.name];
  return ({ run, within }) => {
    const { store } = run.situations;
    const given = new Set<string | undefined>();
    for (const { number, index } of uses) {
      const record = run.steps[number]?.things.find(({ effect }) => effect === index);
      if (record === undefined) continue;
      for (const name of run.situations.distinct(record.thing, store.and(record.reached, within))) given.add(name);
    }
    const names = [...given].filter((name) => name !== undefined).sort((a, b) => order.indexOf(a) - order.indexOf(b));
    return { kind: 'choice', things: names.map((name) => thingNamed(name, procedure)), gap: given.has(undefined) };
  };
}

/** From the start to the end, over every way the job can go. */
export const tellTime: Telling = ({ run, within }) => {
  const { reached, clock } = run.end.moment;
  const total = clock.closely(run.situations.store.and(reached, within));
  return { kind: 'time', ...(total === undefined ? {} : { total: timesOf(total) }) };
};

const seriousness: readonly Severity[] = ['error', 'warning', 'info'];

export function tellFindings(placed: readonly Placed[]): Telling {
  return ({ run, within }) => {
    const found = placed.filter((one) => happens(one, one.steps, run, within));
    const worst = seriousness.find((severity) => found.some(({ shown }) => shown.severity === severity));
    return { kind: 'findings', count: found.length, ...(worst === undefined ? {} : { worst }) };
  };
}
