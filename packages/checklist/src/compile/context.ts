import type { Run } from '@quarrel/analysis';
import type { Procedure, Test } from '@quarrel/model';
import type { Numbering } from './numbering.js';

/** What every part of the compiler looks at. */
export interface Context {
  readonly procedure: Procedure;
  readonly run: Run;
  readonly numbering: Numbering;
  readonly suppose: readonly Test[];
}
