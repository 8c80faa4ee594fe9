import { type Procedure, stepsOf } from '@quarrel/model';
import { processRules } from './catalogue.js';
import type { Silence } from './rule.js';

/** Why estimates tell nothing of a procedure, or not of all of it, and which lines would wake them. */
export function silencesOf(procedure: Procedure): readonly (Silence & { readonly rule: string })[] {
  const unrun = { procedure, steps: stepsOf(procedure) };
  return processRules.flatMap((rule) => [...rule.silences(unrun)].map((silence) => ({ rule: rule.name, ...silence })));
}
