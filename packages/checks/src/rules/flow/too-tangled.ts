import type { Procedure } from '@quarrel/model';
import type { Draft, RuleCard } from '../../rule.js';
import { allOf } from '../../words.js';

/** A procedure whose conditions depend on each other in more ways than can be followed. */
export const tooTangled: RuleCard & { word(procedure: Procedure, conditions: readonly string[]): Draft } = {
  name: 'too-tangled',
  family: 'flow',
  severity: 'error',
  title: 'A procedure too tangled to be checked',
  word: (procedure, conditions) => ({
    range: procedure.range,
    message: `"${procedure.name}" is too tangled to be checked: too much hangs on ${allOf(conditions)} together.`,
    because: 'What cannot be checked over every situation cannot be promised for any.',
    advice: 'Ask about fewer of these together, or make procedures of their own of it.',
    procedure,
  }),
};
