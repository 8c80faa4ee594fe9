import type { Act, Condition, Flow, Position, Procedure } from '@quarrel/model';
import type { Edit } from '../finding.js';
import type { Layout } from '../layout.js';
import { aroundTest, fits, insertAt, insertBefore, newLine, quoted } from './text.js';

/** What is to be done first where an author has not said it; stands in sheets until the author does. */
const toBeSaid = {
  stop: 'Say why the work stops here.',
  seen: 'Say what must be seen',
};

/** A part of the flow as it is written at a column; on one line where it joins a block that stands on one. */
export type Written = (column: number, isInline: boolean) => string;

/** A step with its clauses, on one line where they fit on it. */
export function stepWritten(text: string, clauses: readonly string[]): Written {
  return (column, isInline) => {
    const head = `step ${quoted(text)}`;
    const line = `${head} { ${clauses.join('; ')} }`;
    if (isInline || fits(line, column)) return line;
    const lines = clauses.map((clause) => `${newLine(column + 2)}${clause}`).join('');
    return `${head} {${lines}${newLine(column)}}`;
  };
}

/** A part that is done only where a test holds; `always` needs no asking. */
export function whenWritten(test: string, inner: Written): Written {
  if (test === 'always') return inner;
  return (column, isInline) => {
    if (isInline) return `when ${test} { ${inner(column, true)} }`;
    const head = aroundTest('when ', test, ' {', column, 4);
    return `${head}${newLine(column + 2)}${inner(column + 2, false)}${newLine(column)}}`;
  };
}

export const stopWritten: Written = () => `stop ${quoted(toBeSaid.stop)}`;

/** A step that does an act: with what holds of the act wherever it is done. */
export function actWritten(act: Act, procedure: Procedure): Written {
  const announced = new Set(procedure.cautions.flatMap((one) => (one.kind === 'hazard' ? [one.hazard] : [])));
  const cautions = act.raises.filter((hazard) => !announced.has(hazard)).map((hazard) => `caution ${hazard}`);
  return stepWritten(inWords(act), [...cautions, `do ${act.name}`, ...holdAskedFor(act, procedure)]);
}

/** The hold that rules ask for, where they ask for one at least. */
function holdAskedFor({ name }: Act, { vocabulary }: Procedure): readonly string[] {
  const bounds = vocabulary.rules.flatMap(({ pattern }) =>
    pattern.kind === 'hold' && pattern.act === name ? [pattern] : [],
  );
  const [least] = bounds
    .filter(({ bound }) => bound === 'at-least')
    .sort((a, b) => b.quantity.si - a.quantity.si)
    .map(({ quantity }) => quantity);
  const [most] = bounds
    .filter(({ bound }) => bound === 'at-most')
    .sort((a, b) => a.quantity.si - b.quantity.si)
    .map(({ quantity }) => quantity);
  if (least === undefined) return [];
  return [most === undefined || most.si <= least.si ? `hold ${least.text}` : `hold ${least.text} to ${most.text}`];
}

/** A step that finds a condition out. */
export function lookWritten({ kind, name, label }: Condition): Written {
  return kind === 'observation'
    ? stepWritten(`Observe: ${label}`, [`observe ${name}`])
    : stepWritten(`Read: ${label}`, [`read ${name}`]);
}

/** A step that looks whether a state has a value, and stops the work where it has not. */
export function checkWritten(state: string, value: string): Written {
  const check = `check ${quoted(toBeSaid.seen)} confirms ${state} ${value}`;
  return (column, isInline) => {
    const head = `step ${quoted('Look before going on')}`;
    const otherwise = `or else stop ${quoted(toBeSaid.stop)}`;
    const line = `${head} { ${check} ${otherwise} }`;
    if (isInline || fits(line, column)) return line;
    const clause = `${check} ${otherwise}`;
    const folded = fits(clause, column + 2) ? clause : `${check}${newLine(column + 4)}${otherwise}`;
    return `${head} {${newLine(column + 2)}${folded}${newLine(column)}}`;
  };
}

/** What an act is called in a step: its label, or words made of its name. */
function inWords({ name, label }: Act): string {
  if (label !== name) return label;
  const words = name.replace(/-/g, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Puts a part before another one, behind what is said of the other in a doc comment. */
export function addBefore(part: Flow, layout: Layout, written: Written): Edit | undefined {
  const { whole, cut } = part;
  const place = layout.places.get(part);
  if (whole === undefined || cut === undefined || place === undefined) return undefined;
  const { column } = whole.start;
  const isInline = cut.start.line === whole.start.line;
  const isDocumented = part.kind === 'step' && part.documentation !== undefined;
  if (!isDocumented)
    return insertBefore(whole, isInline ? `${written(column, true)}; ` : `${written(column, false)}${newLine(column)}`);
  if (!isInline) return insertBefore(cut, `${newLine(column)}${written(column, false)}`);
  return insertBefore(cut, place.index === 0 ? ` ${written(column, true)};` : `; ${written(column, true)}`);
}

/** Puts a part behind another one. */
export function addBehind(part: Flow, layout: Layout, written: Written): Edit | undefined {
  const { whole } = part;
  const behind = placeBehind(part, layout);
  if (whole === undefined || behind === undefined) return undefined;
  const { column } = whole.start;
  const text = behind.isInline ? `; ${written(column, true)}` : `${newLine(column)}${written(column, false)}`;
  return insertAt(whole, behind.at, text);
}

/** The place behind a part, and whether the part shares its line with others. */
export function placeBehind(
  part: Flow,
  layout: Layout,
): { readonly at: Position; readonly isInline: boolean } | undefined {
  const { whole, cut } = part;
  const place = layout.places.get(part);
  if (whole === undefined || cut === undefined || place === undefined) return undefined;
  const next = place.block[place.index + 1]?.cut;
  // A comment at the end of the line speaks of what it stands beside.
  const at = next !== undefined && next.start.line === whole.end.line ? next.start : whole.end;
  const isInline = cut.start.line === whole.start.line || (next !== undefined && next.end.line === whole.end.line);
  return { at, isInline };
}

/** Puts a part at the end of a procedure; nothing where the sheet closes it too early. */
export function addAtEnd({ body, closing }: Procedure, written: Written): Edit | undefined {
  const last = body.at(-1)?.whole;
  if (closing === undefined || last === undefined || last.end.line > closing.end.line) return undefined;
  const column = closing.end.column + 1;
  const isInline = closing.start.line === closing.end.line;
  return insertAt(
    closing,
    closing.start,
    isInline ? `; ${written(column, true)}` : `${newLine(column)}${written(column, false)}`,
  );
}
