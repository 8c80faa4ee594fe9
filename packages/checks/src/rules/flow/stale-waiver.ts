import type { Waiver } from '@quarrel/model';
import { takeOut, writeInstead } from '../../mends/text.js';
import type { Draft, RuleCard } from '../../rule.js';

/** A waiver that waives nothing; the runner knows which. */
export const staleWaiver: RuleCard & {
  /** `candidates` are the names of rules that find something where the waiver counts, nearest first. */
  word(waiver: Waiver, isKnown: (rule: string) => boolean, candidates: readonly string[]): Draft;
} = {
  name: 'stale-waiver',
  family: 'flow',
  severity: 'warning',
  title: 'A waiver that waives nothing',
  word: ({ rule, range, ruleRange, cut }, isKnown, candidates) => ({
    range,
    message: isKnown(rule)
      ? `"${rule}" finds nothing here: there is nothing to waive.`
      : `There is no rule called "${rule}" to waive.`,
    because: 'A waiver kept for nothing would hide the next fault of its kind.',
    advice: isKnown(rule) ? 'Take the waiver away.' : 'Correct the name, or take the waiver away.',
    mends: () => [
      ...(ruleRange === undefined ? [] : writeInstead(ruleRange, candidates)),
      ...takeOut('Take the waiver away', cut),
    ],
  }),
};
