import type { Quantity } from './quantity.js';
import type { SourceRange } from './source.js';

/** How a reading is held against one value. */
export type Comparison = 'below' | 'at-most' | 'above' | 'at-least' | 'equal';

/**
 * A yes-or-no question about a situation (observations and readings) or, in what acts and rules ask, about states.
 * Names are resolved: `subject` names a condition or a state of the procedure's vocabulary.
 */
export type Test =
  | {
      readonly kind: 'is';
      /** An observation or a state. */
      readonly subject: string;
      /** In the order written; never empty. */
      readonly values: readonly string[];
      /** True for `is not`: none of the values. */
      readonly negated: boolean;
      readonly range: SourceRange;
    }
  | {
      readonly kind: 'compare';
      /** A reading. */
      readonly subject: string;
      readonly comparison: Comparison;
      readonly quantity: Quantity;
      readonly range: SourceRange;
    }
  | {
      /** `from LOW to HIGH`, both ends included. */
      readonly kind: 'between';
      readonly subject: string;
      readonly low: Quantity;
      readonly high: Quantity;
      readonly range: SourceRange;
    }
  | { readonly kind: 'not'; readonly test: Test; readonly range: SourceRange }
  | { readonly kind: 'and' | 'or'; readonly tests: readonly Test[]; readonly range: SourceRange }
  | { readonly kind: 'always'; readonly range: SourceRange }
  /** What could not be read or resolved; a finding says why. It may come out either way. */
  | { readonly kind: 'unknown'; readonly range: SourceRange };

/** Every condition and state that `test` asks about, each once, in the order of first mention. */
export function subjectsOf(test: Test): readonly string[] {
  const found = new Set<string>();
  const visit = (part: Test): void => {
    switch (part.kind) {
      case 'is':
      case 'compare':
      case 'between':
        found.add(part.subject);
        break;
      case 'not':
        visit(part.test);
        break;
      case 'and':
      case 'or':
        part.tests.forEach(visit);
        break;
      case 'always':
      case 'unknown':
        break;
    }
  };
  visit(test);
  return [...found];
}
