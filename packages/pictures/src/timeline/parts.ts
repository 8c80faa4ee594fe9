import type { Numbering, Region, Run, StepRecord } from '@quarrel/analysis';
import type { Block, Flow, Procedure, Repeat, Step, When } from '@quarrel/model';
import { happens, type Placed } from '../findings.js';
import { timesOf, timesOfSpan } from '../times.js';
import { thingsOf } from './things.js';
import type { Part, StepPart, Way } from './timeline.js';

/** What the parts of a timeline are read off. */
export interface Parting {
  readonly procedure: Procedure;
  /** From one situation alone. */
  readonly run: Run;
  readonly numbering: Numbering;
  readonly placed: readonly Placed[];
}

/** What is done, in order; what no way of the work comes to is left out, and what the situation decides is opened up. */
export function partsOf(parting: Parting): readonly Part[] {
  const { procedure, run, numbering } = parting;
  const { nowhere } = run.situations.store;
  const counters = new Map<string, number>();

  const block = (parts: Block, during: string): readonly Part[] => parts.flatMap((part) => partOf(part, during));

  /** `during` is the number of the step around, or nothing. */
  const partOf = (part: Flow, during: string): readonly Part[] => {
    switch (part.kind) {
      case 'step':
        return step(part, during);
      case 'stage': {
        const { label, range } = part;
        const parts = block(part.body, during);
        return parts.length === 0 ? [] : [{ kind: 'stage', label, range, parts }];
      }
      case 'when':
        return when(part, during);
      case 'repeat':
        return repeat(part, during);
      case 'stop': {
        const number = numbering.of(part);
        const taken = run.stops.find(({ by }) => by.kind === 'stop' && by.stop === number);
        const at = taken?.clock.over(taken.region);
        const { reason, range } = part;
        return at === undefined ? [] : [{ kind: 'stop', reason, range, at: timesOf(at) }];
      }
    }
  };

  const step = (part: Step, during: string): readonly Part[] => {
    const record = run.steps[numbering.of(part)];
    const start = record?.before.clock.over(record.before.reached);
    if (record === undefined || start === undefined) return [];
    const count = (counters.get(during) ?? 0) + 1;
    counters.set(during, count);
    const number = during === '' ? `${count}` : `${during}.${count}`;
    const meanwhile = part.effects.flatMap((effect) => (effect.kind === 'meanwhile' ? block(effect.body, number) : []));
    return [stepShown(part, record, number, timesOf(start), meanwhile, parting)];
  };

  /** A case that holds wherever it is asked leaves nothing to the ones behind it. */
  const when = (part: When, during: string): readonly Part[] => {
    const first = numbering.firstCaseOf(part);
    const ways: Way[] = [];
    const add = (holds: Region, asked: Region, free: boolean, parts: readonly Part[]): void => {
      ways.push({ ...(free ? {} : { circumstance: run.situations.describe(holds, asked) }), parts });
    };
    for (const [index, one] of part.cases.entries()) {
      const record = run.cases[first + index];
      if (record === undefined || record.holds === nowhere) continue;
      const parts = block(one.body, during);
      const isLast = !record.free && record.holds === record.asked;
      if (isLast && ways.length === 0) return parts;
      add(record.holds, record.asked, record.free, parts);
      if (isLast) return branch(ways);
    }
    const rest = run.fallthroughs[numbering.of(part)] ?? nowhere;
    const parts = rest === nowhere ? [] : block(part.otherwise ?? [], during);
    if (ways.length === 0) return parts;
    if (rest !== nowhere)
      add(
        rest,
        run.cases[first]?.asked ?? rest,
        ways.some((way) => way.circumstance === undefined),
        parts,
      );
    return branch(ways);
  };

  const repeat = (part: Repeat, during: string): readonly Part[] => {
    const record = run.repeats[numbering.of(part)];
    if (record === undefined || record.entered === nowhere) return [];
    const { range, until, atMost, orElseStop } = part;
    return [
      {
        kind: 'repeat',
        range,
        ...(until === undefined ? {} : { until }),
        ...(atMost === undefined ? {} : { atMost }),
        ...(orElseStop === undefined ? {} : { orElseStop }),
        ...(record.time === undefined ? {} : { time: timesOf(record.time) }),
        parts: block(part.body, during),
      },
    ];
  };

  return block(procedure.body, '');
}

/** Ways of which none does anything are no branch. */
function branch(ways: readonly Way[]): readonly Part[] {
  return ways.every(({ parts }) => parts.length === 0) ? [] : [{ kind: 'branch', ways }];
}

function stepShown(
  part: Step,
  record: StepRecord,
  number: string,
  start: StepPart['start'],
  meanwhile: readonly Part[],
  { procedure, run, numbering, placed }: Parting,
): StepPart {
  const index = numbering.of(part);
  const end = record.after.clock.over(record.after.reached);
  const stops = run.stops.filter(({ by }) => by.kind === 'effect' && by.step === index).map(({ reason }) => reason);
  const { everywhere } = run.situations.store;
  return {
    kind: 'step',
    id: part.id,
    number,
    text: part.text,
    range: part.whole ?? part.range,
    start,
    ...(end === undefined ? {} : { end: timesOf(end) }),
    ...(part.takes === undefined ? {} : { takes: timesOfSpan(part.takes) }),
    ...(part.hold === undefined ? {} : { hold: timesOfSpan(part.hold) }),
    things: thingsOf(part, record, procedure, run.situations),
    meanwhile,
    stops: [...new Set(stops)],
    findings: placed
      .filter((one) => one.steps.includes(index) && happens(one, [index], run, everywhere))
      .map(({ shown }) => shown),
  };
}
