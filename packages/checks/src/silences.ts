import { type Procedure, stepsOf } from '@quarrel/model';
import { processRules } from './catalogue.js';
import type { Silence } from './rule.js';

/** A reason for which estimates tell nothing of a procedure, or not of all of it. */
export interface Silent extends Silence {
  /** The rules that it keeps silent. */
  readonly rules: readonly string[];
}

/** Why estimates tell nothing of a procedure, or not of all of it, and which lines would wake them; each reason once. */
export function silencesOf(procedure: Procedure): readonly Silent[] {
  const unrun = { procedure, steps: stepsOf(procedure) };
  const found = new Map<string, Silent>();
  for (const rule of processRules) {
    for (const silence of rule.silences(unrun)) {
      const key = JSON.stringify([silence.message, silence.wakes, silence.range]);
      const known = found.get(key) ?? { ...silence, rules: [] };
      if (!known.rules.includes(rule.name)) found.set(key, { ...known, rules: [...known.rules, rule.name] });
    }
  }
  return [...found.values()];
}
