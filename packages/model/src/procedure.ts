import type { Span } from './quantity.js';
import type { SourceRange } from './source.js';
import type { Test } from './test.js';
import type { Declaration, StateValue, ThingKind, Vocabulary } from './vocabulary.js';

export interface Procedure extends Declaration {
  readonly kind: 'procedure';
  /** The sheet it stands in. */
  readonly uri: string;
  readonly revision?: string;
  /** All of them hold in every situation covered; none means every situation. */
  readonly covers: readonly Test[];
  readonly coversRange?: SourceRange;
  /** From behind the last word of the first `covers` to behind its closing brace. */
  readonly coversClosing?: SourceRange;
  /** Names of limits profiles it keeps within. */
  readonly within: readonly NamedUse[];
  /** Cautions that hold throughout. */
  readonly cautions: readonly Caution[];
  readonly waivers: readonly Waiver[];
  readonly choices: readonly Choice[];
  readonly body: Block;
  readonly vocabulary: Vocabulary;
  /** Between its braces. */
  readonly clauses?: SourceRange;
  /** From behind the last word between its braces to behind the closing one. */
  readonly closing?: SourceRange;
}

/** A name where it is used. */
export interface NamedUse {
  readonly name: string;
  readonly range: SourceRange;
}

/** `choose`: which thing to take, by situation. Resolved where it is used. */
export interface Choice extends Declaration {
  readonly kind: 'choice';
  readonly thingKind: ThingKind;
  readonly cases: readonly ChoiceCase[];
  readonly otherwise?: NamedUse;
  /** What goes when `otherwise` is taken out. */
  readonly otherwiseCut?: SourceRange;
}

export interface ChoiceCase {
  readonly test: Test;
  /** Name of a thing of the choice's kind. */
  readonly thing: string;
  readonly range: SourceRange;
  /** What goes when it is taken out. */
  readonly cut?: SourceRange;
}

export type Block = readonly Flow[];

/** Where a part of the flow stands, for whoever writes in the sheet. */
export interface InText {
  /** All of it, from its first word to its end. */
  readonly whole?: SourceRange;
  /** What goes when it is taken out: the part itself with the space, the doc comment and the `;` before it. */
  readonly cut?: SourceRange;
}

export type Flow = Step | Stage | When | Repeat | Stop;

export interface Stage extends InText {
  readonly kind: 'stage';
  readonly label: string;
  readonly body: Block;
  readonly range: SourceRange;
}

export interface When extends InText {
  readonly kind: 'when';
  readonly cases: readonly WhenCase[];
  readonly otherwise?: Block;
  readonly range: SourceRange;
}

export interface WhenCase {
  readonly test: Test;
  readonly body: Block;
  /** Where its test stands. */
  readonly range: SourceRange;
  /** From its test to behind its block. */
  readonly whole?: SourceRange;
}

/** Passes over `body` until the goal is seen; the goal is looked at after each pass. */
export interface Repeat extends InText {
  readonly kind: 'repeat';
  /** The most passes, at least 1; missing where the sheet gives no bound. */
  readonly atMost?: number;
  /** The goal, in words for the eye. */
  readonly until?: string;
  /** What seeing the goal confirms. */
  readonly confirms?: StateValue;
  readonly body: Block;
  /** The reason to stop with when the last pass ends without the goal; missing: the work goes on. */
  readonly orElseStop?: string;
  readonly range: SourceRange;
  /** From the word `repeat` to the last word before its block. */
  readonly head?: SourceRange;
}

export interface Stop extends InText {
  readonly kind: 'stop';
  readonly reason: string;
  readonly range: SourceRange;
}

export interface Step extends InText {
  readonly kind: 'step';
  /** Unique in the procedure: the name, or one made from the text. */
  readonly id: string;
  readonly text: string;
  readonly documentation?: string;
  /** What happens, in the order written. */
  readonly effects: readonly Effect[];
  /** Hands-on time. */
  readonly takes?: Span;
  /** Waiting time after that. */
  readonly hold?: Span;
  /** Where a hold is written that could not be read; a problem of the sheet says why. */
  readonly unreadHold?: SourceRange;
  readonly cautions: readonly Caution[];
  readonly notes: readonly string[];
  readonly photos: readonly string[];
  readonly waivers: readonly Waiver[];
  /** Where its name stands, or the word `step` where it has none. */
  readonly range: SourceRange;
  /** Between its braces; missing where it has none. */
  readonly clauses?: SourceRange;
  /** From behind the last word between its braces to behind the closing one; missing where it has none. */
  readonly closing?: SourceRange;
}

export type Effect =
  | { readonly kind: 'act'; readonly act: string; readonly range: SourceRange }
  | { readonly kind: 'observe'; readonly condition: string; readonly range: SourceRange }
  | { readonly kind: 'read'; readonly condition: string; readonly accept?: Accept; readonly range: SourceRange }
  | {
      /** Something taken in hand: a thing, or a choice of things. */
      readonly kind: 'with';
      readonly thing: string;
      readonly isChoice: boolean;
      readonly amount?: Span;
      readonly range: SourceRange;
    }
  | {
      /** Something that must be seen before going on. */
      readonly kind: 'check';
      readonly text: string;
      readonly confirms?: StateValue;
      /** The reason to stop with when it is not seen; missing: the work goes on, unconfirmed. */
      readonly orElseStop?: string;
      readonly range: SourceRange;
    }
  /** Done during the hold. */
  | { readonly kind: 'meanwhile'; readonly body: Block; readonly range: SourceRange };

/** The readings with which the work goes on. */
export interface Accept {
  readonly span: Span;
  /** The reason to stop with outside it; missing: the work goes on. */
  readonly orElseStop?: string;
}

/** A hazard by name, or a warning in the sheet's own words. */
export type Caution =
  | { readonly kind: 'hazard'; readonly hazard: string; readonly range: SourceRange }
  | { readonly kind: 'text'; readonly text: string; readonly range: SourceRange };

/** A risk taken on purpose. It counts only with a reason. */
export interface Waiver {
  readonly rule: string;
  /** Where the rule's name stands. */
  readonly ruleRange?: SourceRange;
  readonly because?: string;
  readonly range: SourceRange;
  /** What goes when it is taken out. */
  readonly cut?: SourceRange;
}
