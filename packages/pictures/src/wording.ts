import type { Procedure } from '@quarrel/model';
import type { Nothing } from './picked.js';

export function nothingCovered({ label }: Procedure): Nothing {
  return { kind: 'nothing', reason: `“${label}” covers no situation, so there is none to show.` };
}

/** `conditions` and states are to blame, as far as that is known. */
export function tooTangled({ label }: Procedure, conditions: readonly string[]): Nothing {
  const by = conditions.length === 0 ? '' : `: ${conditions.slice(0, 3).join(', ')} hang together in too many ways`;
  return {
    kind: 'nothing',
    reason: `“${label}” is too tangled to be followed through${by}. Divide it into procedures.`,
  };
}
