import type { ThingRecord } from '@quarrel/analysis';
import type { Effect, Vocabulary } from '@quarrel/model';
import type { ThingInHand, ThingOption } from '../checklist.js';
import { simplified, wordTest } from './conditions.js';
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
  return choice === undefined ? [] : [{ kind: choice.thingKind, options: optionsOf(record, context), ...amount }];
}

/** The things that a choice can give at this step, each with the situations in which it gives it. */
function optionsOf(record: ThingRecord, context: Context): readonly ThingOption[] {
  const { situations } = context.run;
  const { vocabulary } = context.procedure;
  const given = situations
    .values(record.thing, record.reached)
    .flatMap(({ value, region }) => (value === undefined ? [] : [{ name: value, region }]));
  const always = given.length === 1 && given[0]?.region === record.reached;
  const texts = textsByThing(record, context);
  const places = [...texts.keys()];
  return given
    .map(({ name, region }) => ({
      name,
      label: thingLabel(name, vocabulary),
      ...(always
        ? {}
        : {
            circumstance: {
              test: situations.describe(region, record.reached),
              text: (texts.get(name) ?? []).join(', or '),
            },
          }),
    }))
    .sort((a, b) => places.indexOf(a.name) - places.indexOf(b.name));
}

/** For every thing a choice can give: when, in the words of its cases and in their order. */
function textsByThing(record: ThingRecord, context: Context): ReadonlyMap<string, readonly string[]> {
  const { situations } = context.run;
  const choice = record.choice === undefined ? undefined : context.procedure.choices[record.choice.choice];
  const texts = new Map<string, string[]>();
  const add = (thing: string, text: string): void => {
    texts.set(thing, [...(texts.get(thing) ?? []), text]);
  };
  let open = record.reached;
  choice?.cases.forEach((one, index) => {
    const holds = situations.store.and(open, record.choice?.cases[index] ?? situations.store.nowhere);
    if (holds === situations.store.nowhere) return;
    add(one.thing, wordTest(simplified(one.test, open, situations), context.procedure.vocabulary));
    open = situations.store.without(open, holds);
  });
  if (choice?.otherwise !== undefined && open !== situations.store.nowhere) add(choice.otherwise.name, 'otherwise');
  return texts;
}

export function thingLabel(name: string, vocabulary: Vocabulary): string {
  return vocabulary.things.find((one) => one.name === name)?.label ?? name;
}
