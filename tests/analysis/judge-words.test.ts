import { interpret, type Region, type Run } from '@quarrel/analysis';
import { parseTest } from '@quarrel/language';
import type { Procedure } from '@quarrel/model';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { procedures } from './judge/arbitrary.js';
import { outcomes } from './judge/asking.js';
import { type Cells, cellsOf } from './judge/cells.js';
import { report } from './judge/compare.js';
import { seed } from './judge/seed.js';

test('a region in words, read back, is the region, and its situation lies inside it', () => {
  let read = 0;
  fc.assert(
    fc.property(procedures(), (procedure) => {
      const found = interpret(procedure);
      if (found.kind !== 'run') throw new Error('the engine calls it too tangled');
      const cells = cellsOf(procedure);
      const faults = regionsOf(found.run).flatMap(({ what, region, within }) => {
        read += 1;
        return [
          ...readBack(procedure, found.run, cells, what, region, within),
          ...typicalInside(found.run, what, region),
        ];
      });
      if (faults.length > 0) throw new Error(report(faults));
    }),
    { numRuns: 300, ...seed() },
  );
  expect(read).toBeGreaterThan(1_000);
}, 120_000);

interface Named {
  readonly what: string;
  readonly region: Region;
  readonly within: Region;
}

/** Regions as findings speak of them, each with the situations that come there at all. */
function regionsOf({ steps, stops, cases, covered }: Run): readonly Named[] {
  return [
    ...steps.flatMap(({ before, acts, things }, step) => [
      { what: `step ${step} reached`, region: before.reached, within: covered },
      ...acts.flatMap(({ effect, reached, unmet }) =>
        unmet.map((region, need) => ({
          what: `need ${need} unmet at step ${step}, effect ${effect}`,
          region,
          within: reached,
        })),
      ),
      ...things.flatMap(({ effect, reached, choice }) =>
        choice === undefined
          ? []
          : [{ what: `no case at step ${step}, effect ${effect}`, region: choice.rest, within: reached }],
      ),
    ]),
    ...cases.map(({ asked, holds }, number) => ({ what: `case ${number} holds`, region: holds, within: asked })),
    ...stops.map(({ region }, number) => ({ what: `stop ${number}`, region, within: covered })),
  ];
}

function readBack(
  procedure: Procedure,
  { situations }: Run,
  cells: Cells,
  what: string,
  region: Region,
  within: Region,
): readonly string[] {
  const isEmpty = situations.typical(region) === undefined;
  const texts = isEmpty ? situations.lines(region, within) : [situations.describe(region, within)];
  if (isEmpty) return texts.length === 0 ? [] : [`${what}: an empty region has the lines ${texts.join(' / ')}`];
  return [
    ...texts,
    situations
      .lines(region, within)
      .map((line) => `(${line})`)
      .join(' or '),
  ].flatMap((text) => {
    const { test, problems } = parseTest(text, procedure.vocabulary);
    if (problems.length > 0) return [`${what}: "${text}" is not read back`];
    const wrong = cells.scenarios.filter(
      (scenario) =>
        situations.holdsIn(within, scenario) &&
        outcomes(test, (subject) => scenario[subject])[0] !== situations.holdsIn(region, scenario),
    );
    return wrong.length === 0 ? [] : [`${what}: "${text}" says otherwise in ${JSON.stringify(wrong[0])}`];
  });
}

function typicalInside({ situations }: Run, what: string, region: Region): readonly string[] {
  const typical = situations.typical(region);
  if (typical === undefined) {
    const isEmpty = region.kind === 'leaf' && !region.value;
    return isEmpty ? [] : [`${what}: no typical situation`];
  }
  return situations.holdsIn(region, typical) ? [] : [`${what}: ${JSON.stringify(typical)} lies outside`];
}
