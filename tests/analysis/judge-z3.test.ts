import { interpret, type Region, type Run } from '@quarrel/analysis';
import type { Procedure } from '@quarrel/model';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { init, killThreads } from 'z3-solver';
import { procedures } from './judge/arbitrary.js';
import { report } from './judge/compare.js';
import { lines } from './judge/facts.js';
import { faults } from './judge/faults.js';
import { procedure as byHand, choose, compare, reading, readingOf, step, taking } from './judge/plain.js';
import { seed } from './judge/seed.js';
import { encode } from './judge/z3-claims.js';
import type { Logic } from './judge/z3-tests.js';

let prover: { readonly logic: Logic; readonly end: () => Promise<void> } | undefined;

beforeAll(async () => {
  const { Context, em } = await init();
  prover = { logic: Context('main'), end: () => killThreads(em) };
}, 60_000);

// Its threads would keep the process from ending.
afterAll(async () => {
  await prover?.end();
});

describe('z3 and the engine', () => {
  test('agree on what is reached, unmet, stopped, left open and ambiguous in 100 procedures', async () => {
    await fc.assert(
      fc.asyncProperty(procedures({ repeats: false, rules: false }), async (procedure) => {
        const apart = await differences(procedure);
        if (apart.length > 0) throw new Error(report(apart));
      }),
      { numRuns: 100, ...seed() },
    );
  }, 120_000);

  test.each(faults.filter(({ flow }) => flow))(
    'differ where the engine $what',
    async ({ wrong }) => {
      let caught = false;
      for (const procedure of fc.sample(procedures({ repeats: false, rules: false }), { numRuns: 100, seed: 1_234 })) {
        caught ||= (await differences(procedure, wrong(procedure))).length > 0;
        if (caught) break;
      }
      expect(caught).toBe(true);
    },
    60_000,
  );

  test('find the one point between below and above, and none where an end belongs to a case', async () => {
    const withCases = (second: 'above' | 'at-least'): Procedure =>
      byHand({
        conditions: [reading('t', 200, 300)],
        choices: [
          choose('fill', [
            [compare('t', 'below', 250), 'thick'],
            [compare('t', second, 250), 'thin'],
          ]),
        ],
        body: [step([readingOf('t'), taking('fill')])],
      });
    expect(await differences(withCases('above'))).toEqual([]);
    expect(await differences(withCases('at-least'))).toEqual([]);
    expect(await gapOf(withCases('above'))).toBe(250);
    expect(await gapOf(withCases('at-least'))).toBeUndefined();
  });
});

/** The temperature at which z3 finds nothing chosen in the first step, if there is one. */
async function gapOf(procedure: Procedure): Promise<string | number | undefined> {
  const { logic } = ready();
  const { facts, claims, words } = encode(procedure, logic);
  const gap = claims.find((claim) => claim.line === lines.gap(0, 1));
  const solver = new logic.Solver();
  solver.add(...facts);
  if (gap === undefined || (await solver.check(gap.formula)) !== 'sat') return undefined;
  return words.scenario(solver.model(), gap.now).t;
}

/**
 * Where the two differ. What the engine says happens nowhere z3 must prove impossible; for the rest z3 names a situation, which
 * has to be of the engine's region, and the engine names one, which z3 must find possible. `asRead` is what the engine is given.
 */
async function differences(procedure: Procedure, asRead: Procedure = procedure): Promise<readonly string[]> {
  const { logic } = ready();
  const found = interpret(asRead);
  if (found.kind !== 'run') return ['the engine calls it too tangled'];
  const { situations } = found.run;
  const regions = regionsOf(found.run);
  const { facts, claims, words } = encode(procedure, logic);
  const solver = new logic.Solver();
  solver.add(...facts);
  const apart: string[] = [];
  for (const { line, formula, now } of claims) {
    const region = regions.get(line);
    const ours = region === undefined ? undefined : situations.typical(region);
    const possible = await solver.check(formula);
    if (possible === 'sat') {
      const theirs = words.scenario(solver.model(), now);
      if (region === undefined || !situations.holdsIn(region, theirs)) {
        apart.push(`${line}: z3 alone finds ${JSON.stringify(theirs)}`);
      }
    }
    if (ours !== undefined && (await solver.check(formula, words.equals(now, ours))) !== 'sat') {
      apart.push(`${line}: the engine alone finds ${JSON.stringify(ours)}`);
    }
    if (possible === 'unknown') apart.push(`${line}: z3 does not know`);
  }
  return apart;
}

function ready(): NonNullable<typeof prover> {
  if (prover === undefined) throw new Error('z3 has not started');
  return prover;
}

/** The engine's regions by the names that claims have. */
function regionsOf(run: Run): ReadonlyMap<string, Region> {
  const regions = new Map<string, Region>();
  run.steps.forEach(({ before, acts, things }, step) => {
    regions.set(lines.reached(lines.before(step)), before.reached);
    for (const { effect, unmet } of acts) {
      unmet.forEach((region, need) => {
        regions.set(lines.unmet(step, effect, need), region);
      });
    }
    for (const { effect, choice } of things) {
      if (choice === undefined) continue;
      regions.set(lines.gap(step, effect), choice.rest);
      for (const { earlier, later, region } of choice.clashes) {
        regions.set(lines.clash(step, effect, earlier, later), region);
      }
    }
  });
  for (const { by, region } of run.stops) {
    if (by.kind === 'effect') regions.set(lines.stopped(`step ${by.step}, effect ${by.effect}`), region);
  }
  return regions;
}
