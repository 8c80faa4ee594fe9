import type { Procedure, SourceRange, Thing, ThingKind } from '@quarrel/model';
import type { Answer, Reason } from '@quarrel/process';
import type { Silence, Unrun } from '../rule.js';
import { actsDuring, assumedLines, glassReading } from './assumed.js';
import { everInHand } from './in-hand.js';

/** Whether acts of a topic are known and no step does any of them: then there is nothing to estimate, whatever is written. */
export function isIdle({ procedure, steps }: Unrun, topic: string): boolean {
  const acts = actsDuring(procedure, topic);
  return acts.size > 0 && !steps.some(({ effects }) => effects.some((one) => one.kind === 'act' && acts.has(one.act)));
}

/** Nobody says which reading is the temperature of the glass. */
export function noGlassReading(procedure: Procedure): readonly Silence[] {
  if (glassReading(procedure) !== undefined) return [];
  return [
    {
      message: 'No sheet says which reading is the temperature of the glass.',
      wakes: 'assume glass { temperature READING }',
    },
  ];
}

/** Nobody says during which acts something happens. */
export function noActs(procedure: Procedure, topic: string): readonly Silence[] {
  if (actsDuring(procedure, topic).size > 0) return [];
  return [{ message: `No sheet says which acts are ${topic}.`, wakes: `assume ${topic} { during ACT }` }];
}

/** Nobody assumes a value. */
export function nothingAssumed(procedure: Procedure, topic: string, example: string): readonly Silence[] {
  const [property = ''] = example.split(' ');
  if (assumedLines(procedure, topic, property).length > 0) return [];
  return [{ message: `No sheet assumes the ${property} of ${topic}.`, wakes: `assume ${topic} { ${example} }` }];
}

/** No step takes a thing of a kind in hand, or the datasheets of some that are taken lack what is `told` by a line. */
export function missingOn(
  kind: ThingKind,
  unrun: Unrun,
  example: string,
  isTold: (thing: Thing) => boolean,
): readonly Silence[] {
  const taken = everInHand(kind, unrun);
  if (taken.length === 0) {
    return [
      {
        message: `No step takes ${kind === 'injector' ? 'an' : 'a'} ${kind} in hand.`,
        wakes: `with ${kind.toUpperCase()}`,
      },
    ];
  }
  const [property = ''] = example.split(' ');
  return taken
    .filter((thing) => !isTold(thing))
    .map(({ name, range }) => ({
      message: `The datasheet of "${name}" has no line "${property}" that an estimate can use.`,
      wakes: example,
      range,
    }));
}

/**
 * What is written and of no use: a formula does not go so far, or the values contradict each other. `examples` are lines for what
 * an answer calls outside, by its name; `otherwise` is one for all else.
 */
export function unusable(
  answer: Answer<unknown> | undefined,
  examples: Readonly<Record<string, string>>,
  otherwise: string,
  range: SourceRange,
): readonly Silence[] {
  if (answer === undefined || answer.kind === 'value') return [];
  if (answer.kind === 'none') return [{ message: reasons[answer.because], wakes: otherwise, range }];
  const message = `The ${answer.of} lies beyond what the formula of the estimate is for.`;
  return [{ message, wakes: examples[answer.of] ?? otherwise, range }];
}

const reasons: Readonly<Record<Reason, string>> = {
  'wrong-dimension': 'A value measures something else than the estimate asks for.',
  'no-points': 'The datasheet gives no viscosity at a temperature.',
  'two-values-at-one-temperature': 'The datasheet gives two viscosities at one temperature.',
  'viscosity-does-not-fall': 'The viscosity on the datasheet does not fall as it gets warmer.',
  'single-point-has-no-slope': 'One viscosity does not tell how it changes with temperature.',
  'never-fills': 'Nothing pushes the resin in: no pressure, and no pull of the gap.',
  'too-few-repairs': 'A gap is found from three repairs or more.',
  'no-light': 'No light comes to the resin.',
};
