import type { Region } from '@quarrel/analysis';
import type { Choice } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { aroundTest, takeOut } from '../../mends/text.js';
import type { FlowRule, Work } from '../../rule.js';
import { allOf } from '../../words.js';
import { isSomewhere, type Use, union, usesOf } from '../../work.js';

/** Two cases of a choice that hold together and give different things. */
export const clashInChoice: FlowRule = {
  name: 'clash-in-choice',
  family: 'flow',
  severity: 'error',
  title: 'Two cases of a choice hold together and give different things',
  *run(work) {
    for (const choice of work.procedure.choices) {
      const uses = usesOf(choice, work);
      for (const [later, one] of choice.cases.entries()) {
        const clashes = uses.flatMap((use) =>
          use.record.clashes
            .filter((clash) => clash.later === later && isSomewhere(work, clash.region))
            .map((clash) => ({ ...clash, number: use.number })),
        );
        const last = clashes.at(-1);
        if (last === undefined) continue;
        const earlier = choice.cases.filter((_, index) => clashes.some((clash) => clash.earlier === index));
        const others = [...new Set(earlier.map(({ thing }) => thing))];
        yield {
          range: one.range,
          message: `"${choice.name}" gives ${allOf([...others, one.thing])} at once: this case holds together with an earlier one.`,
          because: 'Two answers to one question are none; the first is taken, and that may not be the one meant.',
          advice: 'Narrow one of the two cases, so that no situation meets both.',
          related: earlier.map(({ range, thing }) => ({ message: `this case gives ${thing}`, range })),
          mends: () =>
            narrowedCases(
              choice,
              later,
              clashes.map((clash) => clash.earlier),
              uses,
              work,
            ),
          where: {
            region: union(
              work,
              clashes.map(({ region }) => region),
            ),
            reached: union(
              work,
              uses.map(({ thing }) => thing.reached),
            ),
            before: last.number,
          },
        };
      }
    }
  },
};

/** The later case without what the earlier ones take, or the earlier one without what the later one takes. */
function narrowedCases(
  choice: Choice,
  later: number,
  earlier: readonly number[],
  uses: readonly Use[],
  work: Work,
): readonly Mend[] {
  const [first, ...others] = [...new Set(earlier)];
  const things = allOf([...new Set([first, ...others].flatMap((index) => choice.cases[index ?? -1]?.thing ?? []))]);
  const taken = choice.cases[later]?.thing;
  return [
    ...narrowed(choice, later, earlier, `Take ${things} where both hold`, uses, work),
    ...(first === undefined || others.length > 0
      ? []
      : narrowed(choice, first, [later], `Take ${taken} where both hold`, uses, work)),
  ];
}

/** One case without what some others take; taken out where nothing is left of it. */
function narrowed(
  choice: Choice,
  index: number,
  without: readonly number[],
  title: string,
  uses: readonly Use[],
  work: Work,
): readonly Mend[] {
  const one = choice.cases[index];
  if (one === undefined) return [];
  const { situations } = work.run;
  const holds = (at: number): Region =>
    union(
      work,
      uses.map(({ record }) => record.cases[at] ?? situations.store.nowhere),
    );
  const left = situations.store.without(holds(index), union(work, without.map(holds)));
  if (!isSomewhere(work, left)) return takeOut(title, one.cut);
  const reached = union(
    work,
    uses.map(({ thing }) => thing.reached),
  );
  const { column } = one.range.start;
  const text = aroundTest('when ', situations.describe(left, reached), `: ${one.thing}`, column, 2);
  return [{ title, edits: [{ range: one.range, text }] }];
}
