import type { Comparison, Pattern, Severity } from '@quarrel/model';

/**
 * A procedure before its names are settled: every number stands for one of the names there are, counted round. So any draft
 * gives a procedure, and fast-check can shrink a draft freely.
 */
export interface Draft {
  /** How many values each observation has. */
  readonly observations: readonly number[];
  readonly readings: number;
  readonly states: readonly number[];
  readonly covers: readonly TestDraft[];
  readonly acts: readonly ActDraft[];
  readonly rules: readonly RuleDraft[];
  readonly choices: readonly ChoiceDraft[];
  readonly cautions: readonly number[];
  readonly body: readonly FlowDraft[];
}

export type TestDraft =
  | { readonly kind: 'is'; readonly subject: number; readonly values: readonly number[]; readonly negated: boolean }
  | { readonly kind: 'compare'; readonly subject: number; readonly comparison: Comparison; readonly value: number }
  | { readonly kind: 'between'; readonly subject: number; readonly low: number; readonly high: number }
  /** On a state where states may be asked about, else on an observation. */
  | { readonly kind: 'state'; readonly subject: number; readonly values: readonly number[]; readonly negated: boolean }
  | { readonly kind: 'not'; readonly test: TestDraft }
  | { readonly kind: 'and' | 'or'; readonly tests: readonly TestDraft[] }
  | { readonly kind: 'always' }
  | { readonly kind: 'unknown' };

export interface SetDraft {
  readonly state: number;
  readonly value: number;
}

export interface ActDraft {
  readonly needs: readonly TestDraft[];
  readonly makes: readonly SetDraft[];
  readonly raises: readonly number[];
}

export interface RuleDraft {
  readonly pattern: Pattern['kind'];
  readonly severity: Severity;
  readonly a: number;
  readonly b: number;
  readonly test: TestDraft;
  readonly bound: 'at-least' | 'at-most';
  readonly seconds: number;
  readonly bounded: boolean;
  readonly when: TestDraft | undefined;
}

export interface ChoiceDraft {
  readonly cases: readonly { readonly test: TestDraft; readonly thing: number }[];
  readonly otherwise: number | undefined;
}

export type FlowDraft =
  | StepDraft
  | { readonly kind: 'stage'; readonly body: readonly FlowDraft[] }
  | {
      readonly kind: 'when';
      readonly cases: readonly { readonly test: TestDraft; readonly body: readonly FlowDraft[] }[];
      readonly otherwise: readonly FlowDraft[] | undefined;
    }
  | {
      readonly kind: 'repeat';
      readonly atMost: number | undefined;
      readonly confirms: SetDraft | undefined;
      readonly body: readonly FlowDraft[];
      readonly orElseStop: boolean;
    }
  | { readonly kind: 'stop' };

export interface StepDraft {
  readonly kind: 'step';
  readonly cautions: readonly number[];
  readonly effects: readonly EffectDraft[];
  readonly takes: SpanDraft | undefined;
  readonly hold: SpanDraft | undefined;
  readonly meanwhile: readonly FlowDraft[] | undefined;
  /** Checks behind the meanwhile. */
  readonly checks: readonly CheckDraft[];
}

export interface SpanDraft {
  readonly least: number | undefined;
  readonly more: number | undefined;
}

export interface CheckDraft {
  readonly kind: 'check';
  readonly confirms: SetDraft | undefined;
  readonly orElseStop: boolean;
}

export type EffectDraft =
  | { readonly kind: 'act'; readonly act: number }
  /** Of an observation or a reading, as it comes; what is accepted counts for a reading only. */
  | {
      readonly kind: 'look';
      readonly condition: number;
      readonly accept: { readonly low: number | undefined; readonly high: number | undefined } | undefined;
      readonly orElseStop: boolean;
    }
  | { readonly kind: 'with'; readonly thing: number; readonly isChoice: boolean }
  | CheckDraft;
