import type { Procedure } from '@quarrel/model';
import type { ByScenario, Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import { readClock, type Stopwatch } from './clock.js';
import { hull } from './interval.js';
import type { Numbering } from './numbering.js';
import type {
  ActRecord,
  CaseRecord,
  ChoiceRecord,
  Interval,
  Moment,
  RepeatRecord,
  StepRecord,
  StopRecord,
  ThingRecord,
} from './records.js';
import type { Strand } from './strand.js';
import type { Tracks } from './tracks.js';

/** A region that only grows: where something has been seen so far. */
export class Growing {
  constructor(
    readonly situations: Situations,
    public region: Region = situations.store.nowhere,
  ) {}

  add(region: Region): void {
    this.region = this.situations.store.or(this.region, region);
  }
}

/** Growing regions by name or number, kept in the order in which they came up. */
export class GrowingBy<K> {
  readonly #regions = new Map<K, Region>();

  constructor(readonly situations: Situations) {}

  add(key: K, region: Region): void {
    const { store } = this.situations;
    if (region !== store.nowhere) this.#regions.set(key, store.or(this.#regions.get(key) ?? store.nowhere, region));
  }

  at(key: K): Region {
    return this.#regions.get(key) ?? this.situations.store.nowhere;
  }

  list<R>(word: (key: K, region: Region) => R): readonly R[] {
    return [...this.#regions].map(([key, region]) => word(key, region));
  }
}

/** A moment as it is noted: the strands that come to it, pass by pass. */
export class MomentNotes {
  readonly #strands: Strand[] = [];
  readonly #reached: Growing;

  constructor(
    readonly situations: Situations,
    readonly tracks: Tracks,
  ) {
    this.#reached = new Growing(situations);
  }

  add(strand: Strand): void {
    this.#strands.push(strand);
    this.#reached.add(strand.reached);
  }

  get reached(): Region {
    return this.#reached.region;
  }

  get strands(): readonly Strand[] {
    return this.#strands;
  }

  moment(): Moment {
    const { situations, tracks } = this;
    const { store } = situations;
    const strands = this.#strands;
    return {
      reached: this.reached,
      clock: readClock(
        situations,
        strands.map(({ reached, now }) => ({ reached, clock: now })),
      ),
      state(name) {
        const empty: ByScenario<ReadonlySet<string>> = store.constant(valueSet(new Set()));
        return strands
          .map((strand) => tracks.valuesOf(strand, name, valueSet))
          .reduce((all, one) => store.combine(all, one, unite), empty);
      },
      mayKnow: (condition) =>
        strands
          .map((strand) =>
            store.and(strand.reached, strand.known[situations.levelOf(condition) ?? -1] ?? store.nowhere),
          )
          .reduce((all, one) => store.or(all, one), store.nowhere),
      mayNotKnow: (condition) =>
        strands
          .map((strand) =>
            store.without(strand.reached, strand.known[situations.levelOf(condition) ?? -1] ?? store.nowhere),
          )
          .reduce((all, one) => store.or(all, one), store.nowhere),
    };
  }
}

const valueSets = new Map<string, ReadonlySet<string>>();

/** Equal sets of values as one object, so that diagrams can hold them. */
function valueSet(values: ReadonlySet<string>): ReadonlySet<string> {
  const key = [...values].sort().join(' ');
  const known = valueSets.get(key);
  if (known !== undefined) return known;
  valueSets.set(key, values);
  return values;
}

const unite = (a: ReadonlySet<string>, b: ReadonlySet<string>): ReadonlySet<string> => valueSet(new Set([...a, ...b]));

/** What is noted of one act of one step. */
export interface ActNotes {
  readonly effect: number;
  readonly act: string;
  readonly reached: Growing;
  readonly unmet: readonly Growing[];
  readonly unannounced: GrowingBy<string>;
  readonly done: GrowingBy<string>;
  readonly notDone: GrowingBy<string>;
  readonly late: GrowingBy<number>;
  readonly unanswered: GrowingBy<number>;
}

export interface ThingNotes {
  readonly effect: number;
  readonly reached: Growing;
  thing: ByScenario<string | undefined>;
  readonly choice?: {
    readonly number: number;
    readonly cases: readonly Growing[];
    readonly rest: Growing;
    readonly clashes: GrowingBy<string>;
    readonly unknown: GrowingBy<string>;
  };
}

export interface StepNotes {
  readonly before: MomentNotes;
  readonly after: MomentNotes;
  readonly acts: readonly ActNotes[];
  readonly things: readonly ThingNotes[];
  readonly outlasted: Growing;
  meanwhile: Interval | undefined;
}

export interface CaseNotes {
  readonly asked: Growing;
  readonly holds: Growing;
  free: boolean;
  readonly unknown: GrowingBy<string>;
}

export interface RepeatNotes {
  readonly entered: Growing;
  readonly passed: Growing;
  untouched: Region;
  time: Interval | undefined;
}

interface StopNotes {
  readonly reason: string;
  readonly by: StopRecord['by'];
  readonly region: Growing;
  readonly ways: { readonly reached: Region; readonly clock: Stopwatch }[];
}

/** Everything that is noted while a procedure is run, and the records it makes in the end. */
export class Ledger {
  readonly steps: readonly StepNotes[];
  readonly cases: readonly CaseNotes[];
  readonly fallthroughs: readonly Growing[];
  readonly repeats: readonly RepeatNotes[];
  readonly #stops = new Map<string, StopNotes>();

  constructor(
    readonly situations: Situations,
    tracks: Tracks,
    procedure: Procedure,
    numbering: Numbering,
    steps: readonly Procedure['body'][number][],
  ) {
    const growing = (): Growing => new Growing(situations);
    const growingBy = <K>(): GrowingBy<K> => new GrowingBy<K>(situations);
    const times = <R>(count: number, make: () => R): readonly R[] => Array.from({ length: count }, make);
    this.steps = steps.map((part) => ({
      before: new MomentNotes(situations, tracks),
      after: new MomentNotes(situations, tracks),
      acts: (part.kind === 'step' ? part.effects : []).flatMap((effect, index): ActNotes[] => {
        if (effect.kind !== 'act') return [];
        const needs = procedure.vocabulary.acts.find((act) => act.name === effect.act)?.needs ?? [];
        return [
          {
            effect: index,
            act: effect.act,
            reached: growing(),
            unmet: needs.map(growing),
            unannounced: growingBy(),
            done: growingBy(),
            notDone: growingBy(),
            late: growingBy(),
            unanswered: growingBy(),
          },
        ];
      }),
      things: (part.kind === 'step' ? part.effects : []).flatMap((effect, index): ThingNotes[] => {
        if (effect.kind !== 'with') return [];
        const number = procedure.choices.findIndex((choice) => choice.name === effect.thing);
        const choice = effect.isChoice ? procedure.choices[number] : undefined;
        return [
          {
            effect: index,
            reached: growing(),
            thing: situations.store.constant<string | undefined>(undefined),
            ...(choice === undefined
              ? {}
              : {
                  choice: {
                    number,
                    cases: choice.cases.map(growing),
                    rest: growing(),
                    clashes: growingBy<string>(),
                    unknown: growingBy<string>(),
                  },
                }),
          },
        ];
      }),
      outlasted: growing(),
      meanwhile: undefined,
    }));
    this.cases = times(numbering.caseCount, () => ({
      asked: growing(),
      holds: growing(),
      free: false,
      unknown: growingBy(),
    }));
    this.fallthroughs = times(numbering.counts.when, growing);
    this.repeats = times(numbering.counts.repeat, () => ({
      entered: growing(),
      passed: growing(),
      untouched: situations.store.nowhere,
      time: undefined,
    }));
  }

  /** Notes that runs stop. */
  stop(by: StopRecord['by'], reason: string, reached: Region, clock: Stopwatch): void {
    if (reached === this.situations.store.nowhere) return;
    const key = JSON.stringify(by);
    let notes = this.#stops.get(key);
    if (notes === undefined) {
      notes = { reason, by, region: new Growing(this.situations), ways: [] };
      this.#stops.set(key, notes);
    }
    notes.region.add(reached);
    notes.ways.push({ reached, clock });
  }

  stepRecords(): readonly StepRecord[] {
    return this.steps.map((notes) => ({
      before: notes.before.moment(),
      after: notes.after.moment(),
      acts: notes.acts.map(actRecord),
      things: notes.things.map(thingRecord),
      outlasted: notes.outlasted.region,
      ...(notes.meanwhile === undefined ? {} : { meanwhile: notes.meanwhile }),
    }));
  }

  caseRecords(): readonly CaseRecord[] {
    return this.cases.map((notes) => ({
      asked: notes.asked.region,
      holds: notes.holds.region,
      free: notes.free,
      unknown: notes.unknown.list((condition, region) => ({ condition, region })),
    }));
  }

  repeatRecords(): readonly RepeatRecord[] {
    return this.repeats.map((notes) => ({
      entered: notes.entered.region,
      passed: notes.passed.region,
      untouched: notes.untouched,
      ...(notes.time === undefined ? {} : { time: notes.time }),
    }));
  }

  stopRecords(): readonly StopRecord[] {
    return [...this.#stops.values()].map(({ reason, by, region, ways }) => ({
      reason,
      by,
      region: region.region,
      clock: readClock(this.situations, ways),
    }));
  }
}

/** The extremes of what was noted before and what is noted now. */
export function widened(known: Interval | undefined, time: Interval): Interval {
  return known === undefined ? time : hull(known, time);
}

function actRecord(notes: ActNotes): ActRecord {
  return {
    effect: notes.effect,
    act: notes.act,
    reached: notes.reached.region,
    unmet: notes.unmet.map((region) => region.region),
    unannounced: notes.unannounced.list((hazard, region) => ({ hazard, region })),
    mayHaveDone: (act) => notes.done.at(act),
    mayNotHaveDone: (act) => notes.notDone.at(act),
    late: notes.late.list((response, region) => ({ response, region })),
    unanswered: notes.unanswered.list((response, region) => ({ response, region })),
  };
}

function thingRecord(notes: ThingNotes): ThingRecord {
  const { effect, reached, thing, choice } = notes;
  return { effect, reached: reached.region, thing, ...(choice === undefined ? {} : { choice: choiceRecord(choice) }) };
}

function choiceRecord(choice: NonNullable<ThingNotes['choice']>): ChoiceRecord {
  return {
    choice: choice.number,
    cases: choice.cases.map((region) => region.region),
    rest: choice.rest.region,
    clashes: choice.clashes.list((pair, region) => {
      const [earlier = 0, later = 0] = pair.split(' ').map(Number);
      return { earlier, later, region };
    }),
    unknown: choice.unknown.list((condition, region) => ({ condition, region })),
  };
}
