import { type SignalWord, spokenDuration } from '@quarrel/model';
import type {
  ChecklistCaution,
  ChecklistLimit,
  ChecklistObservation,
  ChecklistReading,
  ChecklistStep,
  ClockWindow,
  KitItem,
  KitUse,
  ThingInHand,
  TimeRange,
} from './checklist.js';

/** The words that every page for people shares; plain text, not escaped for any format. */

/** `at least 1 min, at most 2 min`: a hold has two ends, and both matter. */
export function holdWords({ least, most }: TimeRange): string {
  if (least !== undefined && least === most) return `exactly ${spokenDuration(least)}`;
  const ends = [
    least === undefined ? undefined : `at least ${spokenDuration(least)}`,
    most === undefined ? undefined : `at most ${spokenDuration(most)}`,
  ].filter((end) => end !== undefined);
  return ends.length === 0 ? 'no time given' : ends.join(', ');
}

/** `9 min to 16 min`. */
export function timeWords({ least, most }: TimeRange): string {
  if (least !== undefined && most !== undefined) {
    return least === most ? spokenDuration(least) : `${spokenDuration(least)} to ${spokenDuration(most)}`;
  }
  if (least !== undefined) return `at least ${spokenDuration(least)}`;
  return most === undefined ? 'any time' : `at most ${spokenDuration(most)}`;
}

/** A start on the clock, as on a stopwatch: `1:10 to 2:40`. */
export function clockWords({ earliest, latest }: ClockWindow): string {
  if (latest === undefined) return `from ${stopwatch(earliest)}`;
  return earliest === latest ? stopwatch(earliest) : `${stopwatch(earliest)} to ${stopwatch(latest)}`;
}

/** `4:05`, or `1:04:05` from an hour on; fractions of a second are rounded. */
export function stopwatch(seconds: number): string {
  const whole = Math.round(seconds);
  const [h, min, s] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  const two = (value: number): string => String(value).padStart(2, '0');
  return h > 0 ? `${h}:${two(min)}:${two(s)}` : `${min}:${two(s)}`;
}

export const clockLegend = 'Clock: minutes and seconds from the start of the job, earliest to latest start of a step.';

export const signalWords: Readonly<Record<SignalWord, string>> = {
  danger: 'DANGER',
  warning: 'WARNING',
  caution: 'CAUTION',
  notice: 'NOTICE',
};

/** What to wear, then what to do, as sentences. */
export function measureWords(caution: ChecklistCaution): string {
  return [...caution.measures]
    .sort((a, b) => Number(a.kind === 'do') - Number(b.kind === 'do'))
    .map(({ kind, text }) => sentence(kind === 'wear' ? `Wear ${text}` : text))
    .join(' ');
}

export function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}

/** `Thin clear resin, 4 to 6 drops`, or each thing with the situation in which it is the one. */
export function thingWords({ options, amount }: ThingInHand): string {
  const one = options.map(({ label, circumstance }) =>
    circumstance === undefined ? label : `${label} if ${circumstance.text}`,
  );
  const what = one.length === 0 ? 'nothing is chosen for this job' : one.join('; ');
  return amount === undefined ? what : `${what}${one.length > 1 ? '; in all' : ','} ${amount.text}`;
}

export function readingWords({ label, accept }: ChecklistReading): string {
  return accept === undefined ? label : `${label}: ${accept.text} to go on`;
}

/** What to do where a condition is not as the checklist has it; missing where it is for whatever comes. */
export function elsewhereWords(condition: ChecklistReading | ChecklistObservation): string | undefined {
  if ('values' in condition) {
    return condition.values.every((value) => value.covered)
      ? undefined
      : 'Anything else: stop, this checklist is not for it.';
  }
  return condition.supposed.length === 0
    ? undefined
    : `Made for: ${condition.supposed.join('; ')}. Anything else: stop, this checklist is not for it.`;
}

export function useWords({ amounts, sure, circumstance }: KitUse): string {
  const words = [
    ...(amounts.length === 0 ? [] : [amounts.map((amount) => amount.text).join(' and ')]),
    ...(circumstance === undefined ? [] : [`when ${circumstance.text}`]),
    ...(sure ? [] : ['may not be needed']),
  ];
  return words.join(', ');
}

/** `step 3`, `steps 3, 5 and 6`, by the numbers of the page. */
export function stepWords(ids: readonly string[], steps: readonly ChecklistStep[]): string {
  const numbers = steps.filter((step) => ids.includes(step.id)).map((step) => step.number);
  const last = numbers[numbers.length - 1];
  if (numbers.length < 2 || last === undefined) return `step ${numbers.join()}`;
  return `steps ${numbers.slice(0, -1).join(', ')} and ${last}`;
}

/** `Fixed probe: 4 to 6 drops`. */
export function kitWords({ label, uses }: KitItem): string {
  const words = uses.map(useWords).filter((text) => text !== '');
  return words.length === 0 ? label : `${label}: ${words.join('; ')}`;
}

export const kindHeadings: Readonly<Record<KitItem['kind'], string>> = {
  tool: 'Tools',
  lamp: 'Lamps',
  injector: 'Injectors',
  resin: 'Resins',
  consumable: 'Consumables',
};

export function passesWords(atMost: number | undefined): string {
  if (atMost === undefined) return 'as often as it takes';
  return atMost === 1 ? 'once' : `at most ${atMost} times`;
}

/** `Distance to the edge is at least 50 mm, where Where it lies is driver-view`. */
export function limitWords({ allows, when }: ChecklistLimit): string {
  return when === undefined ? allows.text : `If ${when.text}: ${allows.text}`;
}

/** Why a limit is drawn, where it is published, and who else draws it; empty where nothing of it is said. */
export function limitOriginWords({ alsoIn = [], because, source }: ChecklistLimit): string {
  const also = alsoIn.length === 0 ? [] : [`Also: ${alsoIn.join(', ')}.`];
  const published = source === undefined ? [] : [`${source}.`];
  return [...(because === undefined ? [] : [because]), ...published, ...also].join(' ');
}

/** The limits under the label of the profile that draws them, each profile once, in the order they come. */
export function limitsByProfile(limits: readonly ChecklistLimit[]): ReadonlyMap<string, readonly ChecklistLimit[]> {
  const groups = new Map<string, ChecklistLimit[]>();
  for (const limit of limits) {
    const group = groups.get(limit.profile.label);
    if (group === undefined) groups.set(limit.profile.label, [limit]);
    else group.push(limit);
  }
  return groups;
}

export const limitsLead = 'Find these out before the work begins. Where one is not so:';

export const beyondLimits = 'This job is not done by this checklist.';

/** Which jobs a page is for. */
export function scopeWords(supposed: readonly string[]): string {
  return supposed.length === 0 ? 'every job the procedure covers' : supposed.join('; ');
}
