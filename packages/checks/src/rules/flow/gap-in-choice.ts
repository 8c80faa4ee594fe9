import type { Region } from '@quarrel/analysis';
import type { Choice } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { aroundTest, insertAfter, newLine } from '../../mends/text.js';
import type { FlowRule, Work } from '../../rule.js';
import { isSomewhere, union, usesOf } from '../../work.js';

/** A choice that is used where none of its cases holds. */
export const gapInChoice: FlowRule = {
  name: 'gap-in-choice',
  family: 'flow',
  severity: 'error',
  title: 'A choice is used where none of its cases holds',
  *run(work) {
    for (const choice of work.procedure.choices) {
      if (choice.otherwise !== undefined) continue;
      const uses = usesOf(choice, work).map((use) => ({
        ...use,
        gap: gapOf(use.record.rest, use.thing.reached, work),
      }));
      const gaps = uses.filter(({ gap }) => isSomewhere(work, gap));
      const last = gaps.at(-1);
      if (last === undefined) continue;
      const region = union(
        work,
        gaps.map(({ gap }) => gap),
      );
      const reached = union(
        work,
        uses.map(({ thing }) => thing.reached),
      );
      yield {
        range: choice.range,
        message: `"${choice.name}" gives no ${choice.thingKind} in some situations in which it is used: no case holds there.`,
        because: 'Whoever does the job is left without an answer, and takes what is at hand.',
        advice: 'Add a case for these situations, or say "otherwise".',
        related: gaps.map(({ step, thing }) => ({
          message: `used here: ${step.text}`,
          range: (step.effects[thing.effect] ?? step).range,
        })),
        mends: () => missingCases(choice, region, reached, work),
        where: { region, reached, before: last.number },
      };
    }
  },
};

function gapOf(rest: Region, reached: Region, work: Work): Region {
  return work.run.situations.store.and(rest, reached);
}

/** Cases for exactly the missing situations, with each thing that the choice gives already; or `otherwise`. */
function missingCases(choice: Choice, region: Region, reached: Region, work: Work): readonly Mend[] {
  const last = choice.cases.at(-1);
  if (last === undefined) return [];
  const { column, line } = last.range.start;
  const isInline = line === choice.range.start.line;
  const parting = isInline ? '; ' : newLine(column);
  const lines = work.run.situations.lines(region, reached);
  const things = [...new Set(choice.cases.map(({ thing }) => thing).reverse())];
  const caseOf = (thing: string): string =>
    lines.map((test) => `${parting}${aroundTest('when ', test, `: ${thing}`, isInline ? 0 : column, 2)}`).join('');
  return [
    ...things.map((thing) => ({
      title: `Add ${lines.length === 1 ? 'a case' : 'cases'} for the missing situations, with ${thing}`,
      edits: [insertAfter(last.range, caseOf(thing))],
    })),
    { title: `Add otherwise: ${last.thing}`, edits: [insertAfter(last.range, `${parting}otherwise: ${last.thing}`)] },
  ];
}
