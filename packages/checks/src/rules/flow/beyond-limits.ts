import type { Region } from '@quarrel/analysis';
import type { Allowance, NamedUse } from '@quarrel/model';
import type { Related } from '../../finding.js';
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
    const broken = brokenIn(work);
    for (const [at, one] of broken.entries()) {
      if (broken.some((other, index) => isTighter(other, one, index < at, work))) continue;
      const { use, allowance, region } = one;
      const wider = broken.filter((other, index) => isTighter(one, other, at < index, work));
      yield {
        range: use.range,
        message: `The work comes to its end beyond what "${use.name}" allows: ${testInWords(allowance.test)}.`,
        because: allowance.because,
        source: allowance.source,
        advice: 'Narrow "covers", or stop the work in these situations.',
        related: [{ message: 'allowed is', range: allowance.range }, ...wider.map(alsoBroken)],
        mends: () => narrowedCovers(beyond(allowance, work), work),
        where: { region, reached: work.run.end.moment.reached, before: work.steps.length },
      };
    }
  },
};

/** A line of a profile, and where the work comes to its end beyond it. */
interface Broken {
  readonly use: NamedUse;
  readonly allowance: Allowance;
  readonly region: Region;
}

function brokenIn(work: Work): readonly Broken[] {
  const { within, vocabulary } = work.procedure;
  const { store } = work.run.situations;
  return within.flatMap((use) => {
    const profile = vocabulary.limits.find((one) => one.name === use.name);
    return (profile?.allowances ?? []).flatMap((allowance): Broken[] => {
      if (isUncertain(allowance.test) || (allowance.when !== undefined && isUncertain(allowance.when))) return [];
      const region = store.and(work.run.end.moment.reached, beyond(allowance, work));
      return isSomewhere(work, region) ? [{ use, allowance, region }] : [];
    });
  });
}

/** All situations that are not allowed, whether the work comes to its end in them or not. */
function beyond({ test, when }: Allowance, { run: { situations } }: Work): Region {
  const { fails } = situations.region(test);
  return when === undefined ? fails : situations.store.and(situations.region(when).holds, fails);
}

/** Whether `one` is broken wherever `other` is; of two that are broken in the same situations, the earlier is taken. */
function isTighter(one: Broken, other: Broken, isEarlier: boolean, work: Work): boolean {
  if (one === other || isSomewhere(work, work.run.situations.store.without(other.region, one.region))) return false;
  return one.region !== other.region || isEarlier;
}

function alsoBroken({ use, allowance }: Broken): Related {
  return {
    message: `"${use.name}" is broken as well: ${testInWords(allowance.test)}`,
    range: allowance.range,
  };
}
