import type { ByScenario, Mapping, Operation, Region } from '@quarrel/analysis';
import type { Assumed, Quantity, Thing, ThingKind } from '@quarrel/model';
import type { Ran } from '../rule.js';
import { amountOf, assumedLines, lineBySituation } from './assumed.js';
import { inHand, namesIn } from './in-hand.js';

/** What an estimate is made from, and the situations in which it is so. */
export interface Setting {
  readonly region: Region;
  /** For every kind asked about: the things of which one is in hand. */
  readonly hands: readonly (readonly Thing[])[];
  /** For every property asked about: what is assumed of it. */
  readonly values: readonly (Quantity | undefined)[];
}

/** Joins what is known of a situation from two sides. */
const both: Operation<string, string, string> = (a, b) => `${a}\n${b}`;

/** The settings in which a step can be done, by what is in hand and by what is assumed about a topic. */
export function settingsAt(
  number: number,
  kinds: readonly ThingKind[],
  topic: string,
  properties: readonly string[],
  work: Ran,
): readonly Setting[] {
  const { procedure, run } = work;
  const { situations } = run;
  const reached = run.steps[number]?.before.reached;
  if (reached === undefined) return [];
  const lines = properties.map((property) => assumedLines(procedure, topic, property));
  const sides: readonly ByScenario<string>[] = [
    ...kinds.map((kind) => inHand(kind, work)[number] ?? situations.store.constant('')),
    ...lines.map((some) => situations.store.map(lineBySituation(some, work), written)),
  ];
  const [first, ...others] = sides;
  if (first === undefined) return [{ region: reached, hands: [], values: [] }];
  const key = others.reduce((joined, next) => situations.store.combine(joined, next, both), first);
  return situations.values(key, reached).map(({ value, region }) => {
    const parts = value.split('\n');
    return {
      region,
      hands: kinds.map((_, at) => thingsNamed(namesIn(parts[at] ?? ''), work)),
      values: lines.map((some, at) => quantityAt(some, parts[kinds.length + at])),
    };
  });
}

const written: Mapping<number | undefined, string> = (index) => `${index ?? ''}`;

function quantityAt(lines: readonly Assumed[], index: string | undefined): Quantity | undefined {
  const line = index === undefined || index === '' ? undefined : lines[Number(index)];
  return line === undefined ? undefined : amountOf(line);
}

function thingsNamed(names: readonly string[], { procedure }: Ran): readonly Thing[] {
  return names.flatMap((name) => procedure.vocabulary.things.find((thing) => thing.name === name) ?? []);
}
