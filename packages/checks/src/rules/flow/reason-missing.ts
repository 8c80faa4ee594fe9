import { flowIn, type Procedure, type Waiver } from '@quarrel/model';
import { takeOut } from '../../mends/text.js';
import type { Draft, SheetRule } from '../../rule.js';

/** A waiver without a reason, which then does not count; a need or rule of the sheet without one. */
export const reasonMissing: SheetRule = {
  name: 'reason-missing',
  family: 'flow',
  severity: 'error',
  title: 'A waiver, a need or a rule without a reason',
  *look(sheet) {
    for (const procedure of sheet.procedures) yield* waivers(procedure);
    for (const act of sheet.acts) {
      for (const need of act.needs) {
        if (hasReason(need)) continue;
        yield {
          range: need.range,
          severity: 'warning',
          message: `This need of "${act.name}" gives no reason.`,
          because: 'A rule without a reason is the first to be broken when time is short.',
          advice: 'Write "because" and why.',
        };
      }
    }
    for (const rule of sheet.rules) {
      if (hasReason(rule)) continue;
      yield {
        range: rule.range,
        severity: 'warning',
        message: `The rule "${rule.name}" gives no reason.`,
        because: 'A rule without a reason is the first to be broken when time is short.',
        advice: 'Write "because" and why.',
      };
    }
  },
};

/** Whether a reason is given; an empty one is none. */
export function hasReason<T extends { readonly because?: string }>(one: T): one is T & { readonly because: string } {
  return one.because !== undefined && one.because.trim() !== '';
}

function* waivers(procedure: Procedure): Iterable<Draft> {
  const steps = [...flowIn(procedure.body)].filter((part) => part.kind === 'step');
  for (const waiver of [...procedure.waivers, ...steps.flatMap((step) => step.waivers)]) {
    if (!hasReason(waiver)) yield unreasoned(waiver, procedure);
  }
}

function unreasoned(waiver: Waiver, procedure: Procedure): Draft {
  return {
    range: waiver.range,
    message: `Waiving "${waiver.rule}" gives no reason, so it does not count.`,
    because: 'A risk taken on purpose has someone who answers for it.',
    advice: 'Write "because" and why the risk is taken.',
    mends: () => takeOut('Take the waiver away', waiver.cut),
    procedure,
  };
}
