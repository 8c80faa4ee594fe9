import type { Waiver } from '@quarrel/model';
import { takeOut } from '../../mends/text.js';
import type { Draft, RuleCard } from '../../rule.js';

/** A waiver that waives nothing; the runner knows which. */
export const staleWaiver: RuleCard & { word(waiver: Waiver, isKnown: (rule: string) => boolean): Draft } = {
  name: 'stale-waiver',
  family: 'flow',
  severity: 'warning',
  title: 'A waiver that waives nothing',
  word: ({ rule, range, cut }, isKnown) => ({
    range,
    message: isKnown(rule)
      ? `"${rule}" finds nothing here: there is nothing to waive.`
      : `There is no rule called "${rule}" to waive.`,
    because: 'A waiver kept for nothing would hide the next fault of its kind.',
    advice: isKnown(rule) ? 'Take the waiver away.' : 'Correct the name, or take the waiver away.',
    mends: () => takeOut('Take the waiver away', cut),
  }),
};
