import type { Moment, Run, StepRecord } from '@quarrel/analysis';
import { type Effect, type Step, subjectsOf, type Test, type Vocabulary } from '@quarrel/model';
import type { ChecklistObservation, ChecklistReading, ChecklistStep, ThingInHand } from '../checklist.js';
import { cautionsOfStep } from './cautions.js';
import { conditionLabel, wordTest } from './conditions.js';
import type { Context } from './context.js';
import { quantityRange, timeRange } from './quantities.js';
import { thingInHand } from './things.js';

/** Where a step stands on the page. */
export interface Place {
  readonly number: string;
  /** The id of the step during whose hold it is done. */
  readonly during?: string;
}

/** One step as it is to be done. */
export function compileStep(step: Step, record: StepRecord, place: Place, context: Context): ChecklistStep {
  const { procedure, run } = context;
  const { reached, clock } = record.before;
  const start = clock.over(reached);
  const applies = reached === run.covered ? 'always' : run.situations.describe(reached, context.possible);
  const things = step.effects.flatMap((effect, index) => {
    const thing = record.things.find((one) => one.effect === index);
    return effect.kind === 'with' && thing !== undefined ? thingInHand(effect, thing, context) : [];
  });
  return {
    number: place.number,
    id: step.id,
    text: step.text,
    ...(step.documentation === undefined ? {} : { documentation: step.documentation }),
    ...(place.during === undefined ? {} : { during: place.during }),
    ...(applies === 'always' ? {} : { applies }),
    acts: step.effects.flatMap((effect) => (effect.kind === 'act' ? [actNamed(effect.act, context)] : [])),
    cautions: cautionsOfStep(step, procedure.vocabulary),
    things,
    ...resinOf(things),
    ...(step.takes === undefined ? {} : { takes: timeRange(step.takes) }),
    ...(step.hold === undefined ? {} : { hold: timeRange(step.hold) }),
    clock: {
      earliest: start?.least ?? 0,
      ...(start === undefined || !Number.isFinite(start.most) ? {} : { latest: start.most }),
    },
    checks: step.effects.flatMap((effect) =>
      effect.kind === 'check' ? [{ text: effect.text, ...orElseStop(effect.orElseStop) }] : [],
    ),
    readings: step.effects.flatMap((effect) =>
      effect.kind === 'read' ? [reading(effect, record.before, context)] : [],
    ),
    observations: step.effects.flatMap((effect) =>
      effect.kind === 'observe' ? observation(effect, record.before, context) : [],
    ),
    notes: step.notes,
    photos: step.photos,
  };
}

function actNamed(name: string, context: Context): { readonly name: string; readonly label: string } {
  const act = context.procedure.vocabulary.acts.find((one) => one.name === name);
  return { name, label: act?.label ?? name };
}

/** The resin of a step, where it takes one and the situation leaves no doubt which. */
function resinOf(things: readonly ThingInHand[]): { readonly resin?: string } {
  const options = things.flatMap((thing) => (thing.kind === 'resin' ? thing.options : []));
  const only = options[0];
  return only === undefined || options.length > 1 || only.circumstance !== undefined ? {} : { resin: only.name };
}

function reading(
  effect: Extract<Effect, { kind: 'read' }>,
  before: Moment,
  { procedure, run, suppose }: Context,
): ChecklistReading {
  const supposed = isKnown(effect.condition, before, run) ? [] : suppose;
  return {
    name: effect.condition,
    label: conditionLabel(effect.condition, procedure.vocabulary),
    ...(effect.accept === undefined ? {} : { accept: quantityRange(effect.accept.span) }),
    ...orElseStop(effect.accept?.orElseStop),
    supposed: wordedFor(effect.condition, supposed, procedure.vocabulary),
  };
}

/** What is looked at for the first time is as supposed; looked at again, it can be anything that is covered. */
function observation(
  effect: Extract<Effect, { kind: 'observe' }>,
  before: Moment,
  { procedure, run, suppose, possible }: Context,
): readonly ChecklistObservation[] {
  const { situations } = run;
  const declared = procedure.vocabulary.observations.find((one) => one.name === effect.condition);
  if (declared === undefined) return [];
  const again = isKnown(effect.condition, before, run);
  const values = declared.values.map(({ name, label }) => {
    const test: Test = { kind: 'is', subject: declared.name, values: [name], negated: false, range: effect.range };
    const region = situations.store.and(situations.region(test).holds, again ? possible : before.reached);
    return { name, label, covered: region !== situations.store.nowhere };
  });
  const supposed = wordedFor(declared.name, again ? [] : suppose, procedure.vocabulary);
  return [{ name: declared.name, label: declared.label, values, supposed }];
}

function isKnown(condition: string, before: Moment, run: Run): boolean {
  return before.mayNotKnow(condition) === run.situations.store.nowhere;
}

/** The tests that ask about a condition, in words. */
function wordedFor(condition: string, tests: readonly Test[], vocabulary: Vocabulary): readonly string[] {
  return tests.filter((test) => subjectsOf(test).includes(condition)).map((test) => wordTest(test, vocabulary));
}

export function orElseStop(reason: string | undefined): { readonly orElseStop?: string } {
  return reason === undefined ? {} : { orElseStop: reason };
}
