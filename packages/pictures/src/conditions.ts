import { actsUsed } from '@quarrel/analysis';
import { type Condition, flowIn, type Procedure, subjectsOf, type Test } from '@quarrel/model';

/** A condition that a procedure speaks of. */
export interface Mentioned {
  readonly condition: Condition;
  /** Whether the work, what is taken in hand or what is covered depends on it. */
  readonly decides: boolean;
}

/** The conditions that a procedure speaks of: first those that decide something, then those that are only asked; in order. */
export function mentionedIn(procedure: Procedure): readonly Mentioned[] {
  const { observations, readings } = procedure.vocabulary;
  const byName = new Map([...observations, ...readings].map((one) => [one.name, one] as const));
  const deciding = new Set(decidingNames(procedure));
  const names = new Set([...deciding, ...askedNames(procedure)]);
  return [...names].flatMap((name) => {
    const condition = byName.get(name);
    return condition === undefined ? [] : [{ condition, decides: deciding.has(name) }];
  });
}

function decidingNames(procedure: Procedure): readonly string[] {
  const choices = new Map(procedure.choices.map((choice) => [choice.name, choice]));
  const inFlow = [...flowIn(procedure.body)].flatMap((part): readonly string[] => {
    if (part.kind === 'when') return part.cases.flatMap((one) => subjectsOf(one.test));
    if (part.kind !== 'step') return [];
    return part.effects.flatMap((effect) => {
      if (effect.kind === 'read') return effect.accept === undefined ? [] : [effect.condition];
      if (effect.kind !== 'with' || !effect.isChoice) return [];
      return (choices.get(effect.thing)?.cases ?? []).flatMap((one) => subjectsOf(one.test));
    });
  });
  return [...inFlow, ...procedure.covers.flatMap(subjectsOf)];
}

/** What is looked at, and what acts, rules and limits ask about. */
function askedNames(procedure: Procedure): readonly string[] {
  const { rules, limits } = procedure.vocabulary;
  const kept = new Set(procedure.within.map((use) => use.name));
  const looked = [...flowIn(procedure.body)].flatMap((part) =>
    part.kind === 'step' ? part.effects.flatMap((effect) => ('condition' in effect ? [effect.condition] : [])) : [],
  );
  const asked: readonly (Test | undefined)[] = [
    ...actsUsed(procedure).flatMap((act) => act.needs.map((need) => need.test)),
    ...rules.map((rule) => rule.when),
    ...limits
      .filter(({ name }) => kept.has(name))
      .flatMap((one) => one.allowances.flatMap(({ test, when }) => [test, when])),
  ];
  return [...looked, ...asked.flatMap((test) => (test === undefined ? [] : subjectsOf(test)))];
}
