import type { Procedure } from '@quarrel/model';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { procedures } from './judge/arbitrary.js';
import { cellsOf } from './judge/cells.js';
import { differences } from './judge/compare.js';
import { faults, oneOff } from './judge/faults.js';
import { judge } from './judge/naive.js';

const few = { numRuns: 1_000, seed: 20_240_229 };
const longest = 3_000;

describe('the comparison catches an engine that', () => {
  test.each(faults)('$what', ({ wrong }) => {
    const caught = fc.sample(procedures(), few).some((procedure) => isCaught(procedure, wrong(procedure)));
    expect(caught).toBe(true);
  });

  test('is wrong about one record in one situation', () => {
    for (const procedure of fc.sample(procedures(), { ...few, numRuns: 40 })) {
      const cells = cellsOf(procedure);
      const right = judge(procedure, cells, longest);
      if (right === undefined) continue;
      expect(differences(right, right, cells)).toEqual([]);
      for (const { line, facts } of oneOff(right)) {
        const found = differences(facts, right, cells);
        expect(found).toHaveLength(1);
        expect(found[0]).toContain(line);
      }
    }
  });
});

function isCaught(procedure: Procedure, misread: Procedure): boolean {
  const cells = cellsOf(procedure);
  const right = judge(procedure, cells, longest);
  const wrong = judge(misread, cells, longest);
  return right !== undefined && wrong !== undefined && differences(wrong, right, cells).length > 0;
}
