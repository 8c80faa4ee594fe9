import type { ByScenario, Mapping, Operation, Region } from '@quarrel/analysis';
import type { Assumed, Quantity, Thing, ThingKind } from '@quarrel/model';
import type { Ran } from '../rule.js';
import { isSomewhere } from '../work.js';
import { amountOf, assumedLines, lineBySituation } from './assumed.js';
import { inHand, namesIn } from './in-hand.js';

/** What an estimate is made from, and the situations in which it is so. */
export interface Setting {
  readonly region: Region;
  /** For every kind asked about: the things of which one is in hand. */
  readonly hands: readonly (readonly Thing[])[];
  /** For every property asked about: what is assumed of it. */
  readonly values: Assumption['values'];
}

/** What is assumed about some properties of a topic. */
export interface Assumption {
  readonly region: Region;
  readonly values: readonly (Quantity | undefined)[];
}

/**
 * The settings in which a step can be done, by what is in hand and by what is assumed about a topic; only those in `within`, where
 * it is given.
 */
export function settingsAt(
  number: number,
  kinds: readonly ThingKind[],
  topic: string,
  properties: readonly string[],
  work: Ran,
  within: Region | undefined = work.run.steps[number]?.before.reached,
): readonly Setting[] {
  if (within === undefined || !isSomewhere(work, within)) return [];
  const { store } = work.run.situations;
  let settings: readonly Omit<Setting, 'values'>[] = [{ region: within, hands: [] }];
  for (const kind of kinds) {
    const held = inHand(kind, work)[number] ?? store.constant('');
    settings = settings.flatMap(({ region, hands }) =>
      work.run.situations
        .values(held, region)
        .map((one) => ({ region: one.region, hands: [...hands, thingsNamed(namesIn(one.value), work)] })),
    );
  }
  return settings.flatMap(({ region, hands }) =>
    assumptionsAbout(topic, properties, work).flatMap((assumed) => {
      const both = store.and(region, assumed.region);
      return isSomewhere(work, both) ? [{ region: both, hands, values: assumed.values }] : [];
    }),
  );
}

const known = new WeakMap<Ran, Map<string, readonly Assumption[]>>();

/** What is assumed about some properties of a topic, and where: the same for every step, so that none finds it out again. */
export function assumptionsAbout(topic: string, properties: readonly string[], work: Ran): readonly Assumption[] {
  const kept = known.get(work) ?? new Map<string, readonly Assumption[]>();
  known.set(work, kept);
  const key = [topic, ...properties].join(' ');
  const found = kept.get(key) ?? apart(topic, properties, work);
  kept.set(key, found);
  return found;
}

function apart(topic: string, properties: readonly string[], work: Ran): readonly Assumption[] {
  const { store } = work.run.situations;
  const lines = properties.map((property) => assumedLines(work.procedure, topic, property));
  const counting = lines.map((some): ByScenario<string> => store.map(lineBySituation(some, work), written));
  const [first = store.constant(''), ...others] = counting;
  const key = others.reduce((joined, next) => store.combine(joined, next, both), first);
  return work.run.situations.values(key, store.everywhere).map(({ value, region }) => {
    const indices = value.split('\n');
    return { region, values: lines.map((some, at) => quantityAt(some, indices[at])) };
  });
}

/** Joins what is known of a situation from two sides. */
const both: Operation<string, string, string> = (a, b) => `${a}\n${b}`;

const written: Mapping<number | undefined, string> = (index) => `${index ?? ''}`;

function quantityAt(lines: readonly Assumed[], index: string | undefined): Quantity | undefined {
  const line = index === undefined || index === '' ? undefined : lines[Number(index)];
  return line === undefined ? undefined : amountOf(line);
}

function thingsNamed(names: readonly string[], { procedure }: Ran): readonly Thing[] {
  return names.flatMap((name) => procedure.vocabulary.things.find((thing) => thing.name === name) ?? []);
}
