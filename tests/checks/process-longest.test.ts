import { interpret, type Run } from '@quarrel/analysis';
import { type Act, type Block, type Flow, type Procedure, type Step, stepsOf } from '@quarrel/model';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layoutOf } from '../../packages/checks/src/layout.js';
import { fillingSteps, heldFor } from '../../packages/checks/src/process/fills.js';
import { outlasted } from '../../packages/checks/src/process/longest.js';
import type { Ran } from '../../packages/checks/src/rule.js';
import { procedures } from '../analysis/judge/arbitrary.js';
import { cellsOf } from '../analysis/judge/cells.js';
import { seed } from '../analysis/judge/seed.js';

/** The procedure with one of its acts for the act that presses resin in. */
function pressing(procedure: Procedure): Procedure | undefined {
  const [act] = procedure.vocabulary.acts;
  if (act === undefined) return undefined;
  const filling = {
    kind: 'assumptions' as const,
    topic: 'filling',
    label: 'filling',
    acts: [act.name],
    lines: [],
    range: procedure.range,
  };
  return { ...procedure, vocabulary: { ...procedure.vocabulary, assumptions: [filling] } };
}

/**
 * The procedure in which the work is given up where a longer press would be done. Presses that are as long do an act of their
 * own before all else, and `marked` another one behind it.
 */
function givingUp(procedure: Procedure, longer: ReadonlySet<Step>, asLong: ReadonlySet<Step>, marked: Step): Procedure {
  const block = (parts: Block): Block => parts.map(part);
  const part = (one: Flow): Flow => {
    switch (one.kind) {
      case 'stop':
        return one;
      case 'stage':
      case 'repeat':
        return { ...one, body: block(one.body) };
      case 'when': {
        const cases = one.cases.map((inner) => ({ ...inner, body: block(inner.body) }));
        return { ...one, cases, ...(one.otherwise === undefined ? {} : { otherwise: block(one.otherwise) }) };
      }
      case 'step': {
        if (longer.has(one)) return { kind: 'stop', reason: 'Longer.', range: one.range };
        const effects = one.effects.map((effect) =>
          effect.kind === 'meanwhile' ? { ...effect, body: block(effect.body) } : effect,
        );
        const names = [...(asLong.has(one) ? ['as-long'] : []), ...(one === marked ? ['marked'] : [])];
        const marks = names.map((name) => ({ kind: 'act' as const, act: name, range: one.range }));
        return { ...one, effects: [...marks, ...effects] };
      }
    }
  };
  const act = (name: string): Act => ({
    kind: 'act',
    name,
    label: name,
    needs: [],
    makes: [],
    raises: [],
    range: procedure.range,
  });
  const { vocabulary } = procedure;
  const acts = [...vocabulary.acts, act('marked'), act('as-long')];
  return { ...procedure, body: block(procedure.body), vocabulary: { ...vocabulary, acts } };
}

/** Where a run does a step without a longer one ever, and comes to its end without one as long behind it, asked of the engine. */
function lastOfTheLongest(procedure: Procedure, step: Step, longer: ReadonlySet<Step>, asLong: ReadonlySet<Step>) {
  const questions = {
    acts: [],
    responses: [{ trigger: 'marked', response: 'as-long' }],
    finals: [],
    tests: [],
  };
  const interpretation = interpret(givingUp(procedure, longer, asLong, step), questions);
  if (interpretation.kind !== 'run') return undefined;
  const { run } = interpretation;
  const marks = run.steps.flatMap(({ acts }) => acts.filter(({ act }) => act === 'marked'));
  return { run, regions: marks.flatMap(({ unanswered }) => unanswered.map(({ region }) => region)) };
}

function timeOf(step: Step, number: number, run: Run): number {
  return Math.max(heldFor(step), run.steps[number]?.meanwhile?.least ?? 0);
}

test('a press is judged only where some run comes to its end with none that is longer, and nearly everywhere there', {
  timeout: 90_000,
}, () => {
  const seen = { judged: 0, not: 0, missed: 0, again: 0 };
  fc.assert(
    fc.property(procedures(), (drawn) => {
      const procedure = pressing(drawn);
      const interpretation = procedure === undefined ? undefined : interpret(procedure);
      if (procedure === undefined || interpretation?.kind !== 'run') return;
      const { run } = interpretation;
      const work: Ran = { procedure, run, steps: stepsOf(procedure), layout: layoutOf(procedure) };
      const presses = fillingSteps(work);
      const { scenarios } = cellsOf(procedure);
      const isReadable = !JSON.stringify(procedure.body).includes('"kind":"unknown"');
      for (const { step, number } of presses) {
        const time = timeOf(step, number, run);
        const those = (isMeant: (its: number) => boolean): ReadonlySet<Step> =>
          new Set(presses.filter((one) => isMeant(timeOf(one.step, one.number, run))).map((one) => one.step));
        const longer = those((its) => its > time);
        const asLong = those((its) => its === time);
        const exact = lastOfTheLongest(procedure, step, longer, asLong);
        const reached = run.steps[number]?.before.reached;
        if (exact === undefined || reached === undefined) continue;
        const judged = run.situations.store.without(reached, outlasted(step, number, work));
        for (const scenario of scenarios) {
          const isJudged = run.situations.holdsIn(judged, scenario);
          const isSo = exact.regions.some((region) => exact.run.situations.holdsIn(region, scenario));
          const where = `${step.id} in ${JSON.stringify(scenario)}`;
          if (isJudged) expect(isSo, where).toBe(true);
          if (isJudged) seen.judged += 1;
          else if (!isSo) seen.not += 1;
          // What cannot be read may come out either way; the check then keeps silent where it could speak.
          else if (isReadable) seen.missed += 1;
        }
        if (work.layout.foundAgain.size > 0) seen.again += 1;
      }
    }),
    { numRuns: 500, ...seed() },
  );
  expect(seen.judged).toBeGreaterThan(100);
  expect(seen.not).toBeGreaterThan(100);
  expect(seen.again).toBeGreaterThan(50);
  expect(seen.missed / seen.judged).toBeLessThan(0.02);
});
