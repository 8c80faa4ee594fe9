import type { ByScenario, Interval, Moment, Region, Run } from '@quarrel/analysis';
import { spokenDuration } from '@quarrel/model';
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
export function stateWords(name: string, moment: Moment, run: Run): string {
  const { situations } = run;
  const ways = situations.values(moment.state(name), moment.reached);
  const [only] = ways;
  if (only !== undefined && ways.length === 1) return valueWords(only.value);
  const told =
    ways.length > mostWays
      ? []
      : ways.map(({ value, region }) => ({ value, where: situations.describe(region, moment.reached) }));
  if (told.length > 0 && told.every(({ where }) => where.length <= longestWay)) {
    return told.map(({ value, where }) => `${valueWords(value)} when ${code(where)}`).join('; ');
  }
  return `${valueWords(new Set(ways.flatMap(({ value }) => [...value])))}, depending on the situation`;
}

function valueWords(values: ReadonlySet<string>): string {
  return either([...values].map(code));
}

/** Each value that a diagram takes in a region with where it takes it, in words. */
export function byValue<T>(
  diagram: ByScenario<T>,
  within: Region,
  run: Run,
): readonly { readonly value: T; readonly where: string; readonly isAlways: boolean }[] {
  return run.situations.values(diagram, within).map(({ value, region }) => ({
    value,
    where: whereWords(region, within, run),
    isAlways: region === within,
  }));
}
