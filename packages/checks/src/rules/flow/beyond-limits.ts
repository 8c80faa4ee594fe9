import type { Region } from '@quarrel/analysis';
import type { Allowance } from '@quarrel/model';
import { narrowedCovers } from '../../mends/covers.js';
import type { FlowRule, Work } from '../../rule.js';
import { isUncertain } from '../../tests.js';
import { testInWords } from '../../words.js';
import { isSomewhere } from '../../work.js';

/** The work comes to its end in situations that a profile of limits does not allow. */
export const beyondLimits: FlowRule = {
  name: 'beyond-limits',
  family: 'flow',
  severity: 'error',
  title: 'A repair is finished that the limits do not allow',
  *run(work) {
    const { procedure, run } = work;
    const { situations } = run;
    const { reached } = run.end.moment;
    for (const use of procedure.within) {
      const profile = procedure.vocabulary.limits.find((one) => one.name === use.name);
      for (const allowance of profile?.allowances ?? []) {
        if (isUncertain(allowance.test) || (allowance.when !== undefined && isUncertain(allowance.when))) continue;
        const asked =
          allowance.when === undefined
            ? reached
            : situations.store.and(reached, situations.region(allowance.when).holds);
        const region = situations.store.and(asked, situations.region(allowance.test).fails);
        if (!isSomewhere(work, region)) continue;
        yield {
          range: use.range,
          message: `The work comes to its end beyond what "${use.name}" allows: ${testInWords(allowance.test)}.`,
          because: allowance.because,
          source: allowance.source,
          advice: 'Narrow "covers", or stop the work in these situations.',
          related: [{ message: 'allowed is', range: allowance.range }],
          mends: () => narrowedCovers(beyond(allowance, work), work),
          where: { region, reached, before: work.steps.length },
        };
      }
    }
  },
};

/** All situations that are not allowed, whether the work comes to its end in them or not. */
function beyond({ test, when }: Allowance, { run: { situations } }: Work): Region {
  const { fails } = situations.region(test);
  return when === undefined ? fails : situations.store.and(situations.region(when).holds, fails);
}
