import { interpret } from '@quarrel/analysis';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { procedures } from './judge/arbitrary.js';
import { cellsOf } from './judge/cells.js';
import { differences, report } from './judge/compare.js';
import { engineFacts, questionsOf } from './judge/engine-facts.js';
import { judge } from './judge/naive.js';
import { seed } from './judge/seed.js';

/** Parts that the judge walks through at most, counted for every way; the few procedures that need more are left for others of the same kind. */
const longest = 3_000;

test('the engine and a walk through every situation agree on 2,000 procedures', () => {
  fc.assert(
    fc.property(procedures(), (procedure) => {
      const cells = cellsOf(procedure);
      const judged = judge(procedure, cells, longest);
      fc.pre(judged !== undefined);
      const found = interpret(procedure, questionsOf(procedure));
      if (judged === undefined) return;
      expect(found.kind).toBe('run');
      if (found.kind !== 'run') return;
      const apart = differences(engineFacts(found.run, procedure, cells), judged, cells);
      if (apart.length > 0) throw new Error(report(apart));
    }),
    { numRuns: 2_000, ...seed() },
  );
}, 120_000);
