import type { FlowRule } from '../../rule.js';
import { allOf } from '../../words.js';
import { isSomewhere, union, usesOf } from '../../work.js';

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
