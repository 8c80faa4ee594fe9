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
  /** Names of limits profiles it keeps within. */
  readonly within: readonly NamedUse[];
  /** Cautions that hold throughout. */
  readonly cautions: readonly Caution[];
  readonly waivers: readonly Waiver[];
  readonly choices: readonly Choice[];
  readonly body: Block;
  readonly vocabulary: Vocabulary;
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
}

export interface ChoiceCase {
  readonly test: Test;
  /** Name of a thing of the choice's kind. */
  readonly thing: string;
  readonly range: SourceRange;
}

export type Block = readonly Flow[];

export type Flow = Step | Stage | When | Repeat | Stop;

export interface Stage {
  readonly kind: 'stage';
  readonly label: string;
  readonly body: Block;
  readonly range: SourceRange;
}

export interface When {
  readonly kind: 'when';
  readonly cases: readonly WhenCase[];
  readonly otherwise?: Block;
  readonly range: SourceRange;
}

export interface WhenCase {
  readonly test: Test;
  readonly body: Block;
  readonly range: SourceRange;
}

/** Passes over `body` until the goal is seen; the goal is looked at after each pass. */
export interface Repeat {
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
}

export interface Stop {
  readonly kind: 'stop';
  readonly reason: string;
  readonly range: SourceRange;
}

export interface Step {
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
  /** All of it, from the word `step` to its end. */
  readonly whole?: SourceRange;
  /** Between its braces; missing where it has none. */
  readonly clauses?: SourceRange;
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
  readonly because?: string;
  readonly range: SourceRange;
}
