import { type ReadOptions, type ReadResult, readSheets, type SheetSource } from '@quarrel/language';
import type { Effect, Problem, Procedure, Sheet, Step } from '@quarrel/model';
import { flowIn } from '@quarrel/model';

/** A source that knows the given sheets, by path below `file:///shop/`, or by whole address. */
export function sourceOf(sheets: Readonly<Record<string, string>>): SheetSource {
  const texts = new Map(
    Object.entries(sheets).map(([path, text]) => [path.includes(':') ? path : `file:///shop/${path}`, text]),
  );
  return {
    read: async (uri) => {
      const text = texts.get(uri);
      return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
    },
  };
}

/** Reads `file:///shop/main.quarrel` with these texts; nothing ships unless the options say so. */
export function readShop(
  sheets: Readonly<Record<string, string>>,
  options: ReadOptions = { shipped: {} },
): Promise<ReadResult> {
  return readSheets(['file:///shop/main.quarrel'], sourceOf(sheets), options);
}

/** Reads one sheet that stands alone. */
export async function readOne(text: string): Promise<Sheet> {
  return first((await readShop({ 'main.quarrel': text })).sheets);
}

export function first<T>(list: readonly T[]): T {
  const [one] = list;
  if (one === undefined) throw new Error('there is none');
  return one;
}

/** The only procedure of a sheet without problems. */
export async function procedureOf(text: string): Promise<Procedure> {
  const sheet = await readOne(text);
  if (sheet.problems.length > 0) throw new Error(sheet.problems.map(said).join('\n'));
  return first(sheet.procedures);
}

export function allSteps(sheet: Sheet): readonly Step[] {
  return sheet.procedures.flatMap((procedure) => [...flowIn(procedure.body)].filter((part) => part.kind === 'step'));
}

export function effectKinds(step: Step): readonly Effect['kind'][] {
  return step.effects.map(({ kind }) => kind);
}

/** A problem in one line: its place (from 1), its rule and what it is about. */
export function said(problem: Problem): string {
  const { start } = problem.range;
  return `${start.line + 1}:${start.column + 1} ${problem.rule}: ${about(problem)}`;
}

function about(problem: Problem): string {
  switch (problem.rule) {
    case 'syntax':
      return problem.message;
    case 'unknown-name':
      return `${problem.sought} ${problem.name} -> ${problem.candidates.join(', ')}`;
    case 'unknown-sheet':
      return `${problem.path} ${problem.reason} -> ${problem.candidates.join(', ')}`;
    case 'name-clash':
      return `${problem.what} ${problem.name} <- ${problem.other.uri.replace(/^.*\//, '')}:${problem.other.start.line + 1}`;
    case 'mixed-and-or':
      return problem.text;
    case 'unknown-unit':
      return `${problem.unit} -> ${problem.candidates.join(', ')}`;
    case 'wrong-dimension':
      return `${problem.text} is ${problem.found}, ${problem.purpose} is ${problem.expected.join(' or ')}`;
    case 'unit-missing':
      return `${problem.text} of ${problem.purpose}: ${problem.expected.join(' or ')}`;
    case 'unused-declaration':
      return `${problem.what} ${problem.name}`;
  }
}
