import type { Region } from '@quarrel/analysis';
import type { Edit, Mend } from '../finding.js';
import type { Work } from '../rule.js';
import { isSomewhere } from '../work.js';
import { addToProcedure } from './clauses.js';
import { aroundTest, insertAt, newLine } from './text.js';

/** A further line of `covers` that leaves some situations out; none where nothing would be left. */
export function narrowedCovers(leftOut: Region, work: Work): readonly Mend[] {
  const { covered, situations } = work.run;
  const kept = situations.store.without(covered, leftOut);
  if (!isSomewhere(work, kept)) return [];
  const edit = coversLine(situations.describe(kept, covered), work);
  return edit === undefined ? [] : [{ title: 'Leave these situations out of "covers"', edits: [edit] }];
}

function coversLine(test: string, { procedure }: Work): Edit | undefined {
  const { coversRange, coversClosing: closing } = procedure;
  if (coversRange === undefined) return addToProcedure(procedure, `covers { ${test} }`);
  if (closing === undefined || procedure.covers.length === 0) return undefined;
  const isFolded = closing.start.line !== closing.end.line;
  const column = closing.end.column + 1;
  const text = isFolded ? `${newLine(column)}${aroundTest('', test, '', column, 2)}` : `; ${test}`;
  return insertAt(closing, closing.start, text);
}
