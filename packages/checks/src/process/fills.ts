import type { Region } from '@quarrel/analysis';
import type { Procedure, Quantity, Reading, Step, Test, Thing } from '@quarrel/model';
import {
  type Answer,
  type Caveat,
  degrees,
  type Leg,
  legTime,
  type Pascal,
  rangeOf,
  type Second,
  si,
  temperatureToFill,
  viscosityAt,
  whenKnown,
} from '@quarrel/process';
import type { Ran, Unrun } from '../rule.js';
import { actsDuring, amountOf, assumedLines, excludeEachOther, testsOfLines } from './assumed.js';
import { curveOf, pressureOf, surfaceTensionOf } from './datasheet.js';
import { everInHand } from './in-hand.js';
import { settingsAt } from './settings.js';
import { colderThan } from './temperature.js';

/** What a fill is estimated from: a resin pressed into a leg. */
export interface Fill {
  readonly resin: Thing;
  readonly gap: Quantity;
  readonly length: Quantity;
  readonly pressure: Quantity;
}

const properties = ['gap', 'length', 'pressure'] as const;

/** Every fill that some step can come to, whatever the situation. */
export function fillsOf(unrun: Unrun): readonly Fill[] {
  const resins = everInHand('resin', unrun);
  const pressures = pressuresOf(unrun);
  return breaksOf(unrun).flatMap(({ gap, length }) =>
    resins.flatMap((resin) => pressures.map((pressure) => ({ resin, gap, length, pressure }))),
  );
}

/** Every gap with every length that can be assumed beside it. */
function breaksOf({ procedure }: Unrun): readonly Pick<Fill, 'gap' | 'length'>[] {
  const lengths = assumedLines(procedure, 'filling', 'length');
  return assumedLines(procedure, 'filling', 'gap').flatMap((ofGap) =>
    lengths.flatMap((ofLength) => {
      const [gap, length] = [amountOf(ofGap), amountOf(ofLength)];
      return gap === undefined || length === undefined || excludeEachOther(ofGap, ofLength) ? [] : [{ gap, length }];
    }),
  );
}

/** The steps that press resin in, with their numbers. */
export function fillingSteps({ procedure, steps }: Unrun): readonly { readonly step: Step; readonly number: number }[] {
  const acts = actsDuring(procedure, 'filling');
  return steps.flatMap((step, number) =>
    step.effects.some((effect) => effect.kind === 'act' && acts.has(effect.act)) ? [{ step, number }] : [],
  );
}

/** The time for which a step is sure to be held, in seconds. */
export function heldFor({ hold }: Step): number {
  return hold?.least?.si ?? 0;
}

/** The assumed pressures, or else those of the injectors that are taken in hand. */
function pressuresOf(unrun: Unrun): readonly Quantity[] {
  const assumed = assumedLines(unrun.procedure, 'filling', 'pressure').flatMap((line) => amountOf(line) ?? []);
  return [...assumed, ...everInHand('injector', unrun).flatMap((injector) => pressureOf(injector) ?? [])];
}

/** The tests that tell assumptions apart. */
export function assumptionTests({ procedure }: Unrun): readonly Test[] {
  return properties.flatMap((property) => testsOfLines(assumedLines(procedure, 'filling', property)));
}

function legOf({ gap, length }: Fill): Leg {
  return { gap: si(gap.si, 'length'), length: si(length.si, 'length'), contactAngle: degrees(0) };
}

function pushOf({ pressure }: Fill): Pascal {
  return si(pressure.si, 'pressure');
}

/**
 * How long a fill takes at a temperature, and what has to be told beside it; nothing where the resin's datasheet has no line
 * `viscosity`.
 */
export function timeToFill(fill: Fill, kelvin: number): Answer<Second> | undefined {
  const surfaceTension = surfaceTensionOf(fill.resin);
  const curve = curveOf(fill.resin);
  return (
    curve &&
    whenKnown(curve, (known) =>
      whenKnown(viscosityAt(known, si(kelvin, 'temperature')), (viscosity) =>
        legTime(legOf(fill), { viscosity, surfaceTension }, pushOf(fill)),
      ),
    )
  );
}

/** How long a fill takes at the least, in seconds. */
export interface Need {
  readonly seconds: number;
  readonly caveats: readonly Caveat[];
  /** Whether it can well be longer: the datasheet does not go so cold, and a colder resin is thicker. */
  readonly isBound: boolean;
}

/** How long a fill takes at a temperature at the least; nothing where the datasheet does not go so warm. */
export function needAt(fill: Fill, kelvin: number): Need | undefined {
  const curve = curveOf(fill.resin);
  if (curve?.kind !== 'value') return undefined;
  const { least } = rangeOf(curve.value);
  const time = timeToFill(fill, Math.max(kelvin, least));
  if (time?.kind !== 'value') return undefined;
  const isBound = kelvin < least || time.caveats.includes('single-point-colder');
  return { seconds: time.value, caveats: time.caveats, isBound };
}

/** How long a fill takes at a temperature, in seconds; nothing where the resin's datasheet does not tell. */
export function secondsToFill(fill: Fill, kelvin: number): number | undefined {
  const time = timeToFill(fill, kelvin);
  return time?.kind === 'value' ? time.value : undefined;
}

/**
 * Where the glass is so cold that a hold is too short for a fill: everything below the temperature at which it is just long
 * enough. Nothing where it is long enough wherever the datasheet tells.
 */
export function tooColdFor(fill: Fill, hold: number, reading: Reading, procedure: Procedure): Test | undefined {
  const turn = turnOf(fill, hold);
  return turn === undefined ? undefined : colderThan(turn, reading, procedure);
}

/** The temperature of `tooColdFor` in K, not rounded. */
export function turnOf(fill: Fill, hold: number): number | undefined {
  const curve = curveOf(fill.resin);
  if (curve?.kind !== 'value') return undefined;
  const { coldest, law } = curve.value;
  // One point says that a colder resin is thicker, and no more.
  if (law === 'as-given') return (secondsToFill(fill, coldest) ?? 0) > hold ? coldest : undefined;
  const turn = temperatureToFill(
    legOf(fill),
    { curve: curve.value, surfaceTension: surfaceTensionOf(fill.resin) },
    pushOf(fill),
    si(hold, 'time'),
  );
  if (turn.kind === 'value') return turn.value;
  const { least, most } = rangeOf(curve.value);
  return turn.kind === 'outside' && turn.of === 'temperature' && turn.given > least ? most : undefined;
}

/** The fills that a step can be, each with the situations in which it is; only those in `within`, where it is given. */
export function fillsAt(
  number: number,
  work: Ran,
  within?: Region,
): readonly { readonly fill: Fill; readonly region: Region }[] {
  const settings = settingsAt(number, ['resin', 'injector'], 'filling', properties, work, within);
  return settings.flatMap(({ region, hands: [resins = [], injectors = []], values: [gap, length, assumed] }) => {
    if (gap === undefined || length === undefined) return [];
    const pressures = assumed === undefined ? injectors.flatMap((one) => pressureOf(one) ?? []) : [assumed];
    return resins.flatMap((resin) => pressures.map((pressure) => ({ fill: { resin, gap, length, pressure }, region })));
  });
}
