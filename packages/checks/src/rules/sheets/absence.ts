import type { Rule, Step } from '@quarrel/model';
import { atActs, type Said, type StepFault } from '../../at-acts.js';
import type { Mend } from '../../finding.js';
import { mendByStopping, spotBefore } from '../../mends/make.js';
import { askedAt } from '../../mends/situations.js';
import { takeOut } from '../../mends/text.js';
import type { DeclaredRule, Work } from '../../rule.js';
import { testInWords } from '../../words.js';

/** `no A after B`: stands at the step that does A. */
export const absence: DeclaredRule = {
  pattern: 'absence',
  *run(rule, work) {
    if (rule.pattern.kind !== 'absence') return;
    const { act, after } = rule.pattern;
    yield* atActs(rule, act, work, (record) => record.mayHaveDone(after), said(rule, act, after));
  },
};

/** With a `when` it is the situation that is at fault, not the order: doing it earlier would only hide the fault. */
function said({ when }: Rule, act: string, after: string): Said {
  return when === undefined
    ? {
        message: `"${act}" is done here, though "${after}" may have been done before.`,
        advice: `Leave ${act} out in these situations, or do it before ${after}.`,
        mends: leftOut,
      }
    : {
        message: `"${act}" must not be done after "${after}" when ${testInWords(when)}, but here it can be.`,
        advice: `Leave ${act} out in these situations, or stop before it.`,
        mends: leftOut,
      };
}

/** A step that does nothing else goes where it is never allowed; elsewhere the work stops before it. */
function leftOut({ step, number, region, changing }: StepFault, work: Work): readonly Mend[] {
  const spot = spotBefore(step, number, changing, work);
  if (spot === undefined) return [];
  const isAlways = askedAt(region, spot.moment, work) === 'always';
  const isAlone = step.effects.every(({ kind }) => kind === 'act' || kind === 'with') && acts(step).size === 1;
  return [
    ...(isAlways && isAlone ? takeOut('Take the step away', step.cut) : []),
    ...mendByStopping(region, spot, work),
  ];
}

function acts({ effects }: Step): ReadonlySet<string> {
  return new Set(effects.flatMap((effect) => (effect.kind === 'act' ? [effect.act] : [])));
}
