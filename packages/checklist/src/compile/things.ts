import type { ThingRecord } from '@quarrel/analysis';
import type { Choice, ChoiceCase, Effect, Test } from '@quarrel/model';
import type { ThingInHand, ThingOption } from '../checklist.js';
import { circumstanceOf } from './conditions.js';
import type { Context } from './context.js';
import { quantityRange } from './quantities.js';

type With = Extract<Effect, { kind: 'with' }>;

/** What a step takes in hand, as far as the situation decides it. None for a name that means nothing. */
export function thingInHand(effect: With, record: ThingRecord, context: Context): readonly ThingInHand[] {
  const { vocabulary, choices } = context.procedure;
  const amount = effect.amount === undefined ? {} : { amount: quantityRange(effect.amount) };
  if (!effect.isChoice) {
    const thing = vocabulary.things.find((one) => one.name === effect.thing);
    if (thing === undefined) return [];
    return [{ kind: thing.kind, options: [{ name: thing.name, label: thing.label }], ...amount }];
  }
  const choice = choices.find((one) => one.name === effect.thing);
  return choice === undefined
    ? []
    : [{ kind: choice.thingKind, options: optionsOf(record, choice, context), ...amount }];
}

/** The things that a choice can give at this step, each with the situations in which it gives it. */
function optionsOf(record: ThingRecord, choice: Choice, context: Context): readonly ThingOption[] {
  const { situations } = context.run;
  const places = [...choice.cases.map((one) => one.thing), choice.otherwise?.name];
  return situations
    .values(record.thing, record.reached)
    .flatMap(({ value: name, region }) => (name === undefined ? [] : [{ name, region }]))
    .sort((a, b) => places.indexOf(a.name) - places.indexOf(b.name))
    .map(({ name, region }) => ({
      name,
      label: context.procedure.vocabulary.things.find((one) => one.name === name)?.label ?? name,
      ...(region === record.reached
        ? {}
        : { circumstance: circumstanceOf(region, record.reached, testsFor(name, choice), situations) }),
    }));
}

/** Tests in whose words it may be said when a choice gives a thing. */
export function testsFor(thing: string, choice: Choice): readonly Test[] {
  const joined = (cases: readonly ChoiceCase[]): readonly Test[] => {
    const tests = cases.map((one) => one.test);
    return tests.length < 2 ? tests : [{ kind: 'or', tests, range: choice.range }];
  };
  return [
    ...joined(choice.cases.filter((one) => one.thing === thing)),
    ...joined(choice.cases.filter((one) => one.thing !== thing)),
  ];
}
