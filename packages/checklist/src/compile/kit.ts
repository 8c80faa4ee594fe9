import type { ByScenario, Region } from '@quarrel/analysis';
import {
  type Block,
  type Effect,
  flowIn,
  type Step,
  subjectsOf,
  type Test,
  type Thing,
  type ThingKind,
} from '@quarrel/model';
import type { ChecklistStep, KitItem, KitUse } from '../checklist.js';
import { circumstanceOf } from './conditions.js';
import type { Context } from './context.js';
import { readAgain } from './numbering.js';
import { rangeInUnit } from './quantities.js';
import { testsFor } from './things.js';
import { inTurn, oneOf, repeated, type Use, unused } from './use.js';

const order: readonly ThingKind[] = ['tool', 'lamp', 'injector', 'resin', 'consumable'];

/** More distinct amounts than this are told as one range. */
const mostUses = 4;

/** What has to be at hand for a whole job, by situation; in the order of the job within each kind. */
export function compileKit(steps: readonly ChecklistStep[], context: Context): readonly KitItem[] {
  const taken = new Map<string, string[]>();
  for (const step of steps) {
    for (const option of step.things.flatMap((thing) => thing.options)) {
      taken.set(option.name, [...(taken.get(option.name) ?? []), step.id]);
    }
  }
  const items = [...taken].flatMap(([name, ids]): readonly KitItem[] => {
    const thing = context.procedure.vocabulary.things.find((one) => one.name === name);
    if (thing === undefined) return [];
    const { kind, label } = thing;
    return [{ kind, name, label, uses: usesOf(thing, context), steps: [...new Set(ids)] }];
  });
  return items.sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
}

function usesOf(thing: Thing, context: Context): readonly KitUse[] {
  const { situations, covered } = context.run;
  const found = situations.values(useOf(thing, context), covered).filter(({ value }) => value.most > 0);
  if (found.length <= mostUses) return found.map(({ value, region }) => kitUse(value, region, thing, context));
  const { store } = situations;
  const value = found.map((one) => one.value).reduce(oneOf);
  const region = found.map((one) => one.region).reduce((a, b) => store.or(a, b));
  return [kitUse(value, region, thing, context)];
}

function kitUse(use: Use, region: Region, thing: Thing, context: Context): KitUse {
  const { situations, covered } = context.run;
  return {
    amounts: use.amounts
      .filter((amount) => amount.most > 0)
      .map((amount) => rangeInUnit(amount.least, amount.most, amount.unit)),
    sure: use.least > 0,
    ...(region === covered
      ? {}
      : { circumstance: circumstanceOf(region, covered, testsAbout(thing, context), situations) }),
  };
}

/** Tests in whose words it may be said when a job uses a thing. */
function testsAbout(thing: Thing, { procedure }: Context): readonly Test[] {
  return [
    ...procedure.choices.flatMap((choice) => testsFor(thing.name, choice)),
    ...[...flowIn(procedure.body)].flatMap((part) => (part.kind === 'when' ? part.cases.map(({ test }) => test) : [])),
  ];
}

/**
 * What each situation uses of a thing when the job runs to its end. Where a test asks for a condition that may have changed
 * since, both outcomes are allowed for.
 */
function useOf(thing: Thing, context: Context): ByScenario<Use> {
  const { procedure, run, numbering } = context;
  const { situations, covered } = run;
  const { store } = situations;
  const changing = readAgain(procedure);
  const known = new Map<string, Use>();
  const one = (use: Use): Use => {
    const key = [use.least, use.most, ...use.amounts.flatMap(({ unit, least, most }) => [unit, least, most])].join();
    const same = known.get(key) ?? use;
    known.set(key, same);
    return same;
  };
  const add = inTurn(thing.kind);
  const inTurnHere = (a: Use, b: Use): Use => one(add(a, b));
  const oneOfHere = (a: Use, b: Use): Use => one(oneOf(a, b));
  const none = store.constant(one(unused));

  const pick = (test: Test, inside: ByScenario<Use>, outside: ByScenario<Use>): ByScenario<Use> => {
    const { holds, fails } = situations.region(test);
    if (store.and(covered, fails) === store.nowhere) return inside;
    if (store.and(covered, holds) === store.nowhere) return outside;
    const open = store.and(holds, fails) !== store.nowhere || subjectsOf(test).some((name) => changing.has(name));
    return open ? store.combine(inside, outside, oneOfHere) : store.choose(holds, inside, outside);
  };

  const block = (parts: Block): ByScenario<Use> =>
    parts.map(partUse).reduce((a, b) => store.combine(a, b, inTurnHere), none);

  const partUse = (part: Block[number]): ByScenario<Use> => {
    switch (part.kind) {
      case 'step':
        return stepUse(part);
      case 'stage':
        return block(part.body);
      case 'when':
        return part.cases.reduceRight(
          (rest, { test, body }) => pick(test, block(body), rest),
          block(part.otherwise ?? []),
        );
      case 'repeat': {
        const passes = part.atMost ?? Number.POSITIVE_INFINITY;
        return store.map(block(part.body), (use) => one(repeated(use, passes, thing.kind)));
      }
      case 'stop':
        return none;
    }
  };

  const stepUse = (step: Step): ByScenario<Use> => {
    if (run.steps[numbering.of(step)]?.before.reached === store.nowhere) return none;
    return step.effects
      .map((effect) =>
        effect.kind === 'meanwhile' ? block(effect.body) : effect.kind === 'with' ? withUse(effect) : none,
      )
      .reduce((a, b) => store.combine(a, b, inTurnHere), none);
  };

  const withUse = (effect: Extract<Effect, { kind: 'with' }>): ByScenario<Use> => {
    const use = store.constant(one(useOfEffect(effect)));
    if (!effect.isChoice) return effect.thing === thing.name ? use : none;
    const choice = procedure.choices.find(({ name }) => name === effect.thing);
    if (choice === undefined) return none;
    return choice.cases.reduceRight<ByScenario<Use>>(
      (rest, each) => pick(each.test, each.thing === thing.name ? use : none, rest),
      choice.otherwise?.name === thing.name ? use : none,
    );
  };

  return block(procedure.body);
}

function useOfEffect(effect: Extract<Effect, { kind: 'with' }>): Use {
  const { least, most } = effect.amount ?? {};
  const unit = (most ?? least)?.unit;
  const amounts =
    unit === undefined ? [] : [{ unit, least: least?.si ?? 0, most: most?.si ?? Number.POSITIVE_INFINITY }];
  return { least: 1, most: 1, amounts };
}
