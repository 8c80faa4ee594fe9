import type { Quantity, Rule, Span } from '@quarrel/model';
import { grounds, whereAsked } from '../../at-acts.js';
import { heldAtLeast, heldAtMost } from '../../mends/hold.js';
import type { DeclaredRule } from '../../rule.js';
import { isSomewhere, union } from '../../work.js';

type HoldPattern = Extract<Rule['pattern'], { kind: 'hold' }>;

/** `hold of A at least T` and `at most T`: stands at the step that does A. */
export const hold: DeclaredRule = {
  pattern: 'hold',
  *run(rule, work) {
    const { pattern } = rule;
    if (pattern.kind !== 'hold') return;
    for (const [number, step] of work.steps.entries()) {
      const records = (work.run.steps[number]?.acts ?? []).filter(({ act }) => act === pattern.act);
      const first = records[0];
      if (first === undefined || step.unreadHold !== undefined || keeps(step.hold, pattern)) continue;
      const reached = union(
        work,
        records.map((record) => record.reached),
      );
      const region = whereAsked(rule, reached, work);
      if (!isSomewhere(work, region)) continue;
      yield {
        ...grounds(rule),
        range: (step.effects[first.effect] ?? step).range,
        message: `"${pattern.act}" has to be held ${bound(pattern)}, but here ${found(step.hold, pattern)}.`,
        advice: `Write a hold of ${bound(pattern)}.`,
        mends: () =>
          pattern.bound === 'at-least' ? heldAtLeast(step, pattern.quantity) : heldAtMost(step, pattern.quantity),
        step: number,
        where: { region, reached, before: number },
      };
    }
  },
};

function keeps(span: Span | undefined, pattern: HoldPattern): boolean {
  return pattern.bound === 'at-least'
    ? (span?.least?.si ?? 0) >= pattern.quantity.si
    : span === undefined || (span.most !== undefined && span.most.si <= pattern.quantity.si);
}

function bound({ bound: kind, quantity }: HoldPattern): string {
  return `${kind === 'at-least' ? 'at least' : 'at most'} ${quantity.text}`;
}

function found(span: Span | undefined, pattern: HoldPattern): string {
  const end: Quantity | undefined = pattern.bound === 'at-least' ? span?.least : span?.most;
  if (span === undefined) return 'there is no hold';
  if (end === undefined) return pattern.bound === 'at-least' ? 'the hold has no least' : 'the hold has no most';
  return pattern.bound === 'at-least'
    ? `the hold may be as short as ${end.text}`
    : `the hold may be as long as ${end.text}`;
}
