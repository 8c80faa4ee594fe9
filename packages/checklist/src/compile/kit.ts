import { type ByScenario, Outgrown, type Region } from '@quarrel/analysis';
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
import { rangeInUnit } from './quantities.js';
import { testsFor } from './things.js';
import { inTurn, oneOf, repeated, type Use, unused } from './use.js';

const order: readonly ThingKind[] = ['tool', 'lamp', 'injector', 'resin', 'consumable'];

/** More distinct amounts than this are told as one range. */
const mostUses = 4;

/** What working out the uses of one thing may cost. */
const bounds = { nodes: 50_000, steps: 500_000 };

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
  const { store } = context.run.situations;
  const found = usesBySituation(thing, context).filter(({ value }) => value.taken !== 'no');
  if (found.length <= mostUses) return found.map(({ value, region }) => kitUse(value, region, thing, context));
  const value = found.map((one) => one.value).reduce(oneOf);
  const region = found.map((one) => one.region).reduce((a, b) => store.or(a, b));
  return [kitUse(value, region, thing, context)];
}

/** Each distinct use with where it is so; one use for all where telling situations apart would cost too much. */
function usesBySituation(thing: Thing, context: Context): readonly { readonly value: Use; readonly region: Region }[] {
  const { situations, covered } = context.run;
  try {
    return situations.store.task(bounds, () => situations.values(useOf(thing, 'each', context), covered));
  } catch (error) {
    if (!(error instanceof Outgrown)) throw error;
    return situations.values(useOf(thing, 'all', context), covered);
  }
}

function kitUse(use: Use, region: Region, thing: Thing, context: Context): KitUse {
  const { situations, covered } = context.run;
  return {
    amounts: use.amounts
      .filter((amount) => amount.most > 0)
      .map((amount) => rangeInUnit(amount.least, amount.most, amount.unit)),
    sure: use.taken === 'surely',
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
 * since, both outcomes are allowed for; for `all` situations at once they are wherever the procedure leaves a test open.
 */
function useOf(thing: Thing, situationsToTell: 'each' | 'all', context: Context): ByScenario<Use> {
  const { procedure, run, numbering, changing } = context;
  const { situations } = run;
  const { store } = situations;
  const known = new Map<string, Use>();
  const one = (use: Use): Use => {
    const key = [use.taken, ...use.amounts.flatMap(({ unit, least, most }) => [unit, least, most])].join();
    const same = known.get(key) ?? use;
    known.set(key, same);
    return same;
  };
  const add = inTurn(thing.kind);
  const inTurnHere = (a: Use, b: Use): Use => one(add(a, b));
  const oneOfHere = (a: Use, b: Use): Use => one(oneOf(a, b));
  const none = store.constant(one(unused));

  /** One or the other by a test that is asked where `asked` says. */
  const pick = (test: Test, asked: Region, inside: ByScenario<Use>, outside: ByScenario<Use>): ByScenario<Use> => {
    const { holds, fails } = situations.region(test);
    if (store.and(asked, holds) === store.nowhere) return outside;
    if (store.and(asked, fails) === store.nowhere) return inside;
    const open =
      situationsToTell === 'all' ||
      store.and(holds, fails) !== store.nowhere ||
      subjectsOf(test).some((name) => changing.has(name));
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
          (rest, { test, body }, index) => {
            const asked = run.cases[numbering.firstCaseOf(part) + index]?.asked ?? store.nowhere;
            return pick(test, asked, block(body), rest);
          },
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
    const record = run.steps[numbering.of(step)];
    if (record === undefined || record.before.reached === store.nowhere) return none;
    return step.effects
      .map((effect, index) => {
        if (effect.kind === 'meanwhile') return block(effect.body);
        const reached = record.things.find((one) => one.effect === index)?.reached ?? store.nowhere;
        return effect.kind === 'with' ? withUse(effect, reached) : none;
      })
      .reduce((a, b) => store.combine(a, b, inTurnHere), none);
  };

  const withUse = (effect: Extract<Effect, { kind: 'with' }>, reached: Region): ByScenario<Use> => {
    const use = store.constant(one(useOfEffect(effect)));
    if (!effect.isChoice) return effect.thing === thing.name ? use : none;
    const choice = procedure.choices.find(({ name }) => name === effect.thing);
    const useIf = (name: string | undefined): ByScenario<Use> => (name === thing.name ? use : none);
    let asked = reached;
    const cases = (choice?.cases ?? []).map((each) => {
      const here = asked;
      asked = store.and(asked, situations.region(each.test).fails);
      return { ...each, asked: here };
    });
    return cases.reduceRight(
      (rest, each) => pick(each.test, each.asked, useIf(each.thing), rest),
      useIf(choice?.otherwise?.name),
    );
  };

  return block(procedure.body);
}

function useOfEffect(effect: Extract<Effect, { kind: 'with' }>): Use {
  const { least, most } = effect.amount ?? {};
  const unit = (most ?? least)?.unit;
  const amounts =
    unit === undefined ? [] : [{ unit, least: least?.si ?? 0, most: most?.si ?? Number.POSITIVE_INFINITY }];
  return { taken: 'surely', amounts };
}
