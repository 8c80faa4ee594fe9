import type { ByScenario, Operation } from '@quarrel/analysis';
import type { Effect, Procedure, Step, Thing, ThingKind } from '@quarrel/model';
import type { Ran, Unrun } from '../rule.js';

/** Names of things, one of which is in hand; empty where none was taken. Joined by a bar, so that equal sets are one value. */
export type Names = string;

const either: Operation<Names, Names, Names> = (a, b) =>
  a === b ? a : [...new Set([...namesIn(a), ...namesIn(b)])].sort().join('|');

export function namesIn(names: Names): readonly string[] {
  return names === '' ? [] : names.split('|');
}

/**
 * What has been taken in hand last of one kind, for every step when it is done. Where a condition is found out again, what
 * depended on its older value may be any of what it was.
 */
export function inHand(kind: ThingKind, work: Ran): readonly ByScenario<Names>[] {
  const known = told.get(work) ?? new Map<ThingKind, readonly ByScenario<Names>[]>();
  told.set(work, known);
  const held = known.get(kind) ?? followed(kind, work);
  known.set(kind, held);
  return held;
}

const told = new WeakMap<Ran, Map<ThingKind, readonly ByScenario<Names>[]>>();

function followed(kind: ThingKind, work: Ran): readonly ByScenario<Names>[] {
  const { situations, steps } = work.run;
  const { store } = situations;
  let held: ByScenario<Names> = store.constant('');
  return work.steps.map((step, number) => {
    for (const condition of work.layout.foundAgain.get(number) ?? []) {
      const level = situations.levelOf(condition);
      const reached = steps[number]?.before.reached;
      if (level === undefined || reached === undefined) continue;
      const before = store.forget(store.choose(reached, held, store.constant('')), level, either);
      held = store.combine(held, before, either);
    }
    for (const { effect, reached, thing } of steps[number]?.things ?? []) {
      if (takes(step.effects[effect], kind, work.procedure)) {
        held = store.choose(reached, store.map(thing, named), held);
      }
    }
    return held;
  });
}

function named(thing: string | undefined): Names {
  return thing ?? '';
}

/** Whether an effect takes something of a kind in hand, itself or by a choice. */
export function takes(effect: Effect | undefined, kind: ThingKind, { choices, vocabulary }: Procedure): boolean {
  if (effect?.kind !== 'with') return false;
  return effect.isChoice
    ? choices.some(({ name, thingKind }) => name === effect.thing && thingKind === kind)
    : vocabulary.things.some((thing) => thing.name === effect.thing && thing.kind === kind);
}

/** Everything of one kind that some step takes in hand, whatever the situation. */
export function everInHand(kind: ThingKind, { procedure, steps }: Unrun): readonly Thing[] {
  const known = ever.get(steps) ?? everTaken(procedure, steps);
  ever.set(steps, known);
  return known.filter((thing) => thing.kind === kind);
}

const ever = new WeakMap<readonly Step[], readonly Thing[]>();

function everTaken({ choices, vocabulary }: Procedure, steps: readonly Step[]): readonly Thing[] {
  const names = new Set(
    steps.flatMap((step) =>
      step.effects.flatMap((effect) => {
        if (effect.kind !== 'with') return [];
        if (!effect.isChoice) return [effect.thing];
        const choice = choices.find(({ name }) => name === effect.thing);
        const rest = choice?.otherwise === undefined ? [] : [choice.otherwise.name];
        return [...(choice?.cases.map(({ thing }) => thing) ?? []), ...rest];
      }),
    ),
  );
  return vocabulary.things.filter((thing) => names.has(thing.name));
}
