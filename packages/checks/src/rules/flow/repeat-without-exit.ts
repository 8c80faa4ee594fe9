import { flowIn, type Repeat } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { headOf, insertAfter } from '../../mends.js';
import type { SheetRule } from '../../rule.js';

/** A repeat that nothing ends, or that never looks whether it may end. */
export const repeatWithoutExit: SheetRule = {
  name: 'repeat-without-exit',
  family: 'flow',
  severity: 'error',
  title: 'A repeat without a most number of passes or without a goal',
  *look(sheet) {
    for (const procedure of sheet.procedures) {
      for (const part of flowIn(procedure.body)) {
        if (part.kind !== 'repeat' || (part.atMost !== undefined && part.until !== undefined)) continue;
        yield {
          range: headOf(part.range, 'repeat'.length),
          message: `This repeat has ${missing(part)}.`,
          because:
            part.atMost === undefined
              ? 'A break that does not fill is worked on until it is spoilt; at some pass someone has to say: enough.'
              : 'Passes that nobody judges are done for their own sake.',
          advice:
            part.atMost === undefined
              ? 'Say "at most N times", and what to do after the last pass with "or else stop".'
              : 'Say "until" and what must be seen.',
          mends: part.atMost === undefined ? [limited(part)] : [],
          procedure,
        };
      }
    }
  },
};

function missing(part: Repeat): string {
  if (part.until !== undefined) return 'no most number of passes';
  return part.atMost === undefined
    ? 'neither a most number of passes nor a goal: it never ends'
    : 'no goal: nothing is looked at after a pass';
}

function limited(part: Repeat): Mend {
  const text = part.until === undefined ? ' at most 3 times until "say what must be seen"' : ' at most 3 times';
  return { title: `Write "${text.trim()}"`, edits: [insertAfter(headOf(part.range, 'repeat'.length), text)] };
}
