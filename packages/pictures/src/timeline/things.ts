import type { Situations, StepRecord } from '@quarrel/analysis';
import type { Effect, Procedure, Step } from '@quarrel/model';
import type { Named, ThingShown } from './timeline.js';

/** What a step takes in hand in the situations of a run; names that mean nothing are left out. */
export function thingsOf(
  step: Step,
  record: StepRecord,
  procedure: Procedure,
  situations: Situations,
): readonly ThingShown[] {
  return step.effects.flatMap((effect, index) => {
    const taken = record.things.find((one) => one.effect === index);
    if (effect.kind !== 'with' || taken === undefined) return [];
    const kind = kindOf(effect, procedure);
    if (kind === undefined) return [];
    const names = situations.distinct(taken.thing, taken.reached);
    return [{ kind, options: names.flatMap((name) => (name === undefined ? [] : [thingNamed(name, procedure)])) }];
  });
}

export function thingNamed(name: string, { vocabulary }: Procedure): Named {
  return { name, label: vocabulary.things.find((one) => one.name === name)?.label ?? name };
}

function kindOf(
  effect: Extract<Effect, { kind: 'with' }>,
  { choices, vocabulary }: Procedure,
): ThingShown['kind'] | undefined {
  return effect.isChoice
    ? choices.find((one) => one.name === effect.thing)?.thingKind
    : vocabulary.things.find((one) => one.name === effect.thing)?.kind;
}
