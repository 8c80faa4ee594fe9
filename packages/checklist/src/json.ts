import { isoDuration, unitNamed } from '@quarrel/model';
import type {
  BranchCase,
  Checklist,
  ChecklistLimit,
  ChecklistQuantity,
  ChecklistStep,
  Circumstance,
  FlowPart,
  KitItem,
  QuantityRange,
  ThingInHand,
  TimeRange,
} from './checklist.js';

/**
 * A checklist for machines, as `docs/schemas/checklist.schema.json` describes it: durations in ISO 8601, units in UCUM, names
 * where the sheets have names. What does not apply and an end that is open are left out.
 */
export function checklistToJson(checklist: Checklist): string {
  return `${JSON.stringify(documentOf(checklist), undefined, 2)}\n`;
}

function documentOf(checklist: Checklist): object {
  const { procedure, digest, draft, scope, cautions, kit, limits, flow, steps, total, stops, notice } = checklist;
  return {
    version: 1,
    procedure,
    digest,
    draft,
    scope,
    notice,
    cautions,
    kit: { things: kit.things.map(kitItem), wear: kit.wear },
    limits: limits.map(limitOf),
    acts: distinct(steps.flatMap((step) => step.acts)),
    steps: steps.map(stepOf),
    flow: flow.map(flowPart),
    ...(total === undefined ? {} : { total: duration(total) }),
    stops: stops.map((stop) => ({ ...stop, total: duration(stop.total) })),
  };
}

function stepOf(step: ChecklistStep): object {
  const { acts, things, takes, hold, clock, readings, ...rest } = step;
  return {
    ...rest,
    acts: acts.map((act) => act.name),
    things: things.map(thing),
    ...(takes === undefined ? {} : { takes: duration(takes) }),
    ...(hold === undefined ? {} : { hold: duration(hold) }),
    clock: {
      earliest: isoDuration(clock.earliest),
      ...(clock.latest === undefined ? {} : { latest: isoDuration(clock.latest) }),
    },
    readings: readings.map(({ accept, ...reading }) => ({
      ...reading,
      ...(accept === undefined ? {} : { accept: quantities(accept) }),
    })),
  };
}

function thing({ kind, options, amount }: ThingInHand): object {
  return {
    kind,
    options: options.map(({ circumstance, ...option }) => ({ ...option, ...when(circumstance) })),
    ...(amount === undefined ? {} : { amount: quantities(amount) }),
  };
}

function kitItem({ uses, ...item }: KitItem): object {
  return {
    ...item,
    uses: uses.map(({ amounts, sure, circumstance }) => ({
      amounts: amounts.map(quantities),
      sure,
      ...when(circumstance),
    })),
  };
}

function limitOf({ profile, allows, when: where, asks, alsoIn: _, ...rest }: ChecklistLimit): object {
  return { ...rest, profile: profile.name, allows: allows.test, ...when(where), asks: asks.map(({ name }) => name) };
}

function flowPart(part: FlowPart): object {
  switch (part.kind) {
    case 'step':
      return { ...part, meanwhile: part.meanwhile.map(flowPart) };
    case 'stage':
      return { ...part, body: part.body.map(flowPart) };
    case 'branch':
      return {
        kind: part.kind,
        cases: part.cases.map(branchCase),
        ...(part.otherwise === undefined ? {} : { otherwise: branchCase(part.otherwise) }),
      };
    case 'repeat': {
      const time = part.time === undefined ? {} : { time: duration(part.time) };
      return { ...part, body: part.body.map(flowPart), ...time };
    }
    case 'stop':
      return part;
  }
}

function branchCase({ circumstance, body }: BranchCase): object {
  return { ...when(circumstance), body: body.map(flowPart) };
}

/** Machines read the test; the words for people are made of the same. */
function when(circumstance: Circumstance | undefined): { readonly when?: string } {
  return circumstance === undefined ? {} : { when: circumstance.test };
}

function duration({ least, most }: TimeRange): object {
  return {
    ...(least === undefined ? {} : { least: isoDuration(least) }),
    ...(most === undefined ? {} : { most: isoDuration(most) }),
  };
}

function quantities({ least, most }: QuantityRange): object {
  return {
    ...(least === undefined ? {} : { least: quantity(least) }),
    ...(most === undefined ? {} : { most: quantity(most) }),
  };
}

function quantity({ value, unit }: ChecklistQuantity): object {
  return { value, unit: unitNamed(unit)?.ucum ?? unit };
}

function distinct<T extends { readonly name: string }>(all: readonly T[]): readonly T[] {
  return [...new Map(all.map((one) => [one.name, one])).values()];
}
