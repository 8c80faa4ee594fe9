import { flowIn, type Repeat } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { headOf, insertAfter } from '../../mends/text.js';
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
          mends: () => withExit(part),
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

/** What is missing, for the author to change; first with a word on what to do after the last pass, where that is not said. */
function withExit(part: Repeat): readonly Mend[] {
  const goal = part.until === undefined ? ' until "Say what must be seen"' : '';
  if (part.atMost !== undefined) {
    return part.head === undefined ? [] : [{ title: `Add${goal}`, edits: [insertAfter(part.head, goal)] }];
  }
  const limit = ` at most 3 times${goal}`;
  const limited = [insertAfter(headOf(part.range, 'repeat'.length), limit)];
  const ending = ' or else stop "Say why the work stops here."';
  const andStop =
    part.orElseStop !== undefined || part.whole === undefined
      ? []
      : [{ title: `Add${limit}, and a stop behind it`, edits: [...limited, insertAfter(part.whole, ending)] }];
  return [...andStop, { title: `Add${limit}`, edits: limited }];
}
