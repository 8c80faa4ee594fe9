import type { Interval, Moment, Region, Run, ThingRecord } from '@quarrel/analysis';
import { type Procedure, type State, spokenDuration } from '@quarrel/model';
import { code, either } from './markdown.js';

/** In which situations something is so, of those in which it is asked. */
export function whereWords(region: Region, within: Region, { situations }: Run): string {
  if (region === situations.store.nowhere) return 'in no situation';
  const words = situations.describe(region, within);
  return words === 'always' ? 'in every situation' : `when ${code(words)}`;
}

/** `9 min to 16 min`; the same end twice is said once. */
export function timeWords({ least, most }: Interval): string {
  if (!Number.isFinite(most)) return `at least ${spokenDuration(least)}`;
  return least === most ? spokenDuration(least) : `${spokenDuration(least)} to ${spokenDuration(most)}`;
}

/** `starts at 3 min to 4 min 30 s`; nothing where no run comes. */
export function startWords(moment: Moment): string | undefined {
  const window = moment.clock.over(moment.reached);
  if (window === undefined) return undefined;
  const { least, most } = window;
  return Number.isFinite(most) ? `starts at ${timeWords(window)}` : `starts at ${spokenDuration(least)} or later`;
}

/** How many ways of saying a state by situation are still read. */
const mostWays = 3;
const longestWay = 90;

/** The values a state has at a moment; where they depend on the situation, each with its situations as long as that is short. */
export function stateWords({ name, values }: State, moment: Moment, run: Run): string {
  const { situations } = run;
  const order = values.map((value) => value.name);
  const inOrder = (set: ReadonlySet<string>): readonly string[] => order.filter((value) => set.has(value));
  const words = (set: ReadonlySet<string>): string => either(inOrder(set).map(code));
  const ways = situations.values(moment.state(name), moment.reached);
  const [only] = ways;
  if (only !== undefined && ways.length === 1) return words(only.value);
  const told =
    ways.length > mostWays
      ? []
      : ways
          .map(({ value, region }) => ({ value, where: situations.describe(region, moment.reached) }))
          .sort((x, y) => order.indexOf(inOrder(x.value)[0] ?? '') - order.indexOf(inOrder(y.value)[0] ?? ''));
  if (told.length > 0 && told.every(({ where }) => where.length <= longestWay)) {
    return told.map(({ value, where }) => `${words(value)} when ${code(where)}`).join('; ');
  }
  return `${words(new Set(ways.flatMap(({ value }) => [...value])))}, depending on the situation`;
}

/** What a step takes in hand by a choice, or without one: each thing with where it takes it, in the order of the cases. */
export function thingsInHand(
  { thing, reached, choice }: ThingRecord,
  { choices }: Procedure,
  run: Run,
): readonly { readonly name: string | undefined; readonly where: string; readonly isAlways: boolean }[] {
  const cases = choices[choice?.choice ?? -1]?.cases.map((one) => one.thing) ?? [];
  const place = (name: string | undefined): number => {
    const at = name === undefined ? -1 : cases.indexOf(name);
    return at < 0 ? cases.length : at;
  };
  return [...run.situations.values(thing, reached)]
    .sort((a, b) => place(a.value) - place(b.value))
    .map(({ value, region }) => ({
      name: value,
      where: whereWords(region, reached, run),
      isAlways: region === reached,
    }));
}
