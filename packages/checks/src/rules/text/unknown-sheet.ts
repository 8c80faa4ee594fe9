import type { Problem } from '@quarrel/model';
import { writeInstead } from '../../mends/text.js';
import type { TextRule } from '../../rule.js';
import { anyOf } from '../../words.js';

type Reason = Extract<Problem, { rule: 'unknown-sheet' }>['reason'];

const facts: Readonly<Record<Reason, (path: string) => string>> = {
  missing: (path) => `There is no sheet "${path}".`,
  outside: (path) => `"${path}" leads out of the folder that is checked; sheets there are not read.`,
  unreadable: (path) => `The sheet "${path}" cannot be read.`,
  'not-shipped': (path) => `No sheet called "${path}" ships with Quarrel.`,
};

/** A `use` that leads to no sheet. */
export const unknownSheet: TextRule<'unknown-sheet'> = {
  name: 'unknown-sheet',
  family: 'text',
  severity: 'error',
  title: 'A sheet is used that is not there',
  word: ({ range, path, reason, candidates }) => ({
    range,
    message: facts[reason](path),
    advice:
      candidates.length === 0
        ? 'Write the path from this sheet to the other one.'
        : `Did you mean ${anyOf(candidates.slice(0, 3).map((candidate) => `"${candidate}"`))}?`,
    mends: () =>
      writeInstead(
        range,
        candidates.slice(0, 3).map((candidate) => `"${candidate}"`),
      ),
  }),
};
