import type { Condition, Position, SourceRange, Step, Vocabulary } from '@quarrel/model';
import type { Edit, Mend } from './finding.js';

/** Puts `text` just before what stands at `range`. */
export function insertBefore(range: SourceRange, text: string): Edit {
  return { range: { uri: range.uri, start: range.start, end: range.start }, text };
}

/** Puts `text` just behind what stands at `range`. */
export function insertAfter(range: SourceRange, text: string): Edit {
  return { range: { uri: range.uri, start: range.end, end: range.end }, text };
}

/** Each of some texts in place of what stands there. */
export function writeInstead(range: SourceRange, texts: readonly string[]): readonly Mend[] {
  return texts.map((text) => ({ title: `Write ${text}`, edits: [{ range, text }] }));
}

/** A step of its own that finds a condition out, put before what stands at `place`. */
export function findOutBefore(place: SourceRange, condition: Condition): Mend {
  const verb = condition.kind === 'observation' ? 'observe' : 'read';
  const said = condition.kind === 'observation' ? 'Observe' : 'Read';
  const text = `step "${said}: ${condition.label}" { ${verb} ${condition.name} }`;
  return {
    title: `Add a step that ${verb}s ${condition.name}`,
    edits: [insertBefore(place, `${text}\n${' '.repeat(place.start.column)}`)],
  };
}

/** A clause added to a step, first of all its clauses; none where the sheet does not say where they stand. */
export function addClause(step: Step, clause: string): readonly Mend[] {
  if (step.clauses === undefined) return [];
  return [{ title: `Add ${clause} to this step`, edits: [insertBefore(step.clauses, ` ${clause};`)] }];
}

/** The first word of what stands at `range`, whose length is `length`; the whole may run over many lines. */
export function headOf(range: SourceRange, length: number): SourceRange {
  const end: Position = { line: range.start.line, column: range.start.column + length };
  return { uri: range.uri, start: range.start, end };
}

/** The condition of this name. */
export function conditionNamed(vocabulary: Vocabulary, name: string): Condition | undefined {
  return [...vocabulary.observations, ...vocabulary.readings].find((condition) => condition.name === name);
}
