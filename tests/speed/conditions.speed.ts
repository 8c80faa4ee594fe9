import { interpret } from '@quarrel/analysis';
import type { Procedure } from '@quarrel/model';
import { afterAll, expect, test } from 'vitest';
import { init, killThreads } from 'z3-solver';
import { cellsOf } from '../analysis/judge/cells.js';
import { judge } from '../analysis/judge/naive.js';
import { encode } from '../analysis/judge/z3-claims.js';
import { median, ms, ratio, table } from './measure.js';
import { entangledSheet, madeSheet, procedureOf } from './sheets.js';

const counts = [4, 8, 16, 24, 40];
/** More situations than these are not walked one by one: at 16 conditions that takes minutes, at 24 hours. */
const mostSituations = 300;

const { Context, em } = await init();
afterAll(() => killThreads(em));

/** A procedure of 400 steps: all needs proved or disproved by z3, one after another. */
async function byZ3(procedure: Procedure): Promise<void> {
  const logic = Context('main');
  const { facts, claims } = encode(procedure, logic);
  const solver = new logic.Solver();
  solver.add(...facts);
  for (const { line, formula } of claims) if (line.includes('need')) await solver.check(formula);
}

function bySituation(procedure: Procedure): void {
  expect(judge(procedure, cellsOf(procedure))).toBeDefined();
}

test('400 steps over more and more conditions', async () => {
  const rows: string[][] = [];
  for (const shape of ['independent', 'paired'] as const) {
    for (const count of counts) {
      const procedure = await procedureOf(madeSheet(400, count, shape));
      const engine = await median(9, () => expect(interpret(procedure).kind).toBe('run'));
      const naive = 2 ** count <= mostSituations ? await median(1, () => bySituation(procedure)) : undefined;
      const z3 = await median(1, () => byZ3(procedure));
      rows.push([shape, String(count), ms(engine), ms(naive), ratio(naive, engine), ms(z3), ratio(z3, engine)]);
    }
  }
  for (const count of counts) {
    const procedure = await procedureOf(entangledSheet(count));
    const engine = await median(9, () => expect(interpret(procedure).kind).toBe('run'));
    rows.push([
      `one state marked by all pairs, ${procedure.body.length} stages`,
      String(count),
      ms(engine),
      '',
      '',
      '',
      '',
    ]);
  }
  console.log(
    `\n400 steps, checked over all situations (medians, one run)\n\n${table(
      ['branches', 'conditions', 'engine', 'situation by situation', 'to engine', 'z3, needs only', 'to engine'],
      rows,
    )}\n`,
  );
});
