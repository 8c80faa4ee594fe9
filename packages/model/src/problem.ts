import type { SourceRange } from './source.js';
import type { Dimension } from './units.js';

/**
 * What is wrong with the text of a sheet, found on the way to the model: facts only, worded by the rule of the same name.
 */
export type Problem =
  /** The parser says itself, in plain words, what it expected. */
  | { readonly rule: 'syntax'; readonly message: string; readonly range: SourceRange }
  | {
      readonly rule: 'unknown-name';
      /** What was looked for, in the language's words: `act`, `observation or reading`. */
      readonly sought: string;
      readonly name: string;
      /** Names that would do, nearest first. */
      readonly candidates: readonly string[];
      readonly range: SourceRange;
    }
  | {
      readonly rule: 'unknown-sheet';
      readonly path: string;
      readonly reason: 'missing' | 'outside' | 'unreadable' | 'not-shipped';
      readonly candidates: readonly string[];
      readonly range: SourceRange;
    }
  | {
      readonly rule: 'name-clash';
      readonly name: string;
      readonly what: string;
      readonly other: SourceRange;
      readonly range: SourceRange;
    }
  /**
   * `text` is the whole test; `andParts` and `orParts` are the stretches that would be bracketed to read `and`, or `or`, first.
   */
  | {
      readonly rule: 'mixed-and-or';
      readonly text: string;
      readonly andParts: readonly SourceRange[];
      readonly orParts: readonly SourceRange[];
      readonly range: SourceRange;
    }
  | {
      readonly rule: 'unknown-unit';
      readonly unit: string;
      readonly candidates: readonly string[];
      readonly range: SourceRange;
    }
  | {
      readonly rule: 'wrong-dimension';
      readonly text: string;
      readonly expected: readonly Dimension[];
      readonly found: Dimension;
      /** What the quantity is for: `a hold`, `glass-temperature`. */
      readonly purpose: string;
      readonly range: SourceRange;
    }
  | {
      readonly rule: 'unit-missing';
      readonly text: string;
      readonly expected: readonly Dimension[];
      readonly purpose: string;
      readonly range: SourceRange;
    }
  | {
      readonly rule: 'unused-declaration';
      readonly what: string;
      readonly name: string;
      readonly range: SourceRange;
      /** What goes when it is taken out. */
      readonly cut?: SourceRange;
    };
