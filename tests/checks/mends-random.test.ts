import { formatText } from '@quarrel/language';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { procedures } from '../analysis/judge/arbitrary.js';
import { seed } from '../analysis/judge/seed.js';
import { expectAllMended } from './mended.js';
import { written } from './written.js';

test('every mend of any procedure takes its finding away', async () => {
  const mended = new Set<string>();
  await fc.assert(
    fc.asyncProperty(procedures(), async (procedure) => {
      const { text, problems } = formatText(written(procedure));
      expect(problems, written(procedure)).toEqual([]);
      for (const { rule, mends } of await expectAllMended({ random: text }, 'readable'))
        if (mends.length > 0) mended.add(rule);
    }),
    // A smaller procedure would have to be read again for each of its mends; the seed brings this one back.
    { numRuns: 30, endOnFailure: true, ...seed() },
  );
  // Whatever comes by chance, these come often.
  for (const rule of ['unmet-need', 'hazard-unannounced', 'unread-condition']) expect(mended).toContain(rule);
});
