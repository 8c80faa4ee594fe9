import type { Condition, Dimension, Problem, SourceRange, State } from '@quarrel/model';
import type { AstNode } from 'langium';
import type * as ast from '../generated/ast.js';
import type { Places } from './places.js';

/** What lowering a part of a sheet needs to know, and where it says what is wrong. */
export interface Reader {
  readonly places: Places;
  report(problem: Problem): void;
  /** Reports something that the language cannot read, in a sentence. */
  complain(message: string, range: SourceRange): void;
  /** The condition or state a test speaks of; nothing where it did not resolve or could not be lowered. */
  subjectOf(test: ast.Comparison): Condition | State | undefined;
  /** What a reading measures; nothing where it could not be lowered. */
  dimensionOf(reading: ast.Reading): Dimension | undefined;
  /** Whether something in this part could not be read, so that what is missing has been reported. */
  isBroken(node: AstNode): boolean;
  /** The names of one kind of subject that can be seen, to offer them. */
  subjectsOfKind(kind: 'observation' | 'reading'): Iterable<string>;
}

/** The name a reference resolves to; nothing where it does not, which is reported elsewhere. */
export function resolved<T extends { readonly name?: string }>(
  reference: { readonly ref?: T | undefined; readonly $refText: string } | undefined,
): string | undefined {
  return reference?.ref === undefined ? undefined : reference.$refText;
}

/** Several texts as one; nothing of none. */
export function joined(texts: readonly string[], between: string): string | undefined {
  return texts.length === 0 ? undefined : texts.join(between);
}

/** An object with `key` where there is a value for it, and without it where there is none. */
export function optional<K extends string, V>(key: K, value: V | undefined): { readonly [P in K]?: V } {
  const entry: { [P in K]?: V } = {};
  if (value !== undefined) entry[key] = value;
  return entry;
}
