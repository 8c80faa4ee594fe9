import { flowIn } from '@quarrel/model';
import type { SheetRule } from '../../rule.js';

/** A hold that says how long at least, and not how long at most. */
export const holdWithoutLimit: SheetRule = {
  name: 'hold-without-limit',
  family: 'flow',
  severity: 'warning',
  title: 'A hold without a most',
  *look(sheet) {
    for (const procedure of sheet.procedures) {
      const steps = [...flowIn(procedure.body)].filter((part) => part.kind === 'step');
      for (const [number, { hold }] of steps.entries()) {
        if (hold === undefined || hold.most !== undefined) continue;
        const least = hold.least?.text;
        yield {
          range: hold.range,
          message: `This hold has no most: ${least === undefined ? 'it' : `after ${least} it`} may go on for ever.`,
          because: 'Vacuum, pressure and lamp do harm when they are forgotten, and no timer can call.',
          advice: least === undefined ? 'Say how long.' : `Say how long at most: "${least} to …".`,
          mends: () =>
            least === undefined ? [] : [{ title: `Hold ${least}`, edits: [{ range: hold.range, text: least }] }],
          procedure,
          step: number,
        };
      }
    }
  },
};
