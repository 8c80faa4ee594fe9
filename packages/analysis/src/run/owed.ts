import type { ByScenario, Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import type { ResponseQuestion } from './questions.js';
import type { Interval } from './records.js';
import { type DoneBy, keyOf, notOwed, type Owed, type Strand } from './strand.js';

/** Answers owed to rules: begun by an act, given by another, and late when too much time may have passed between. */
export class Debts {
  readonly #later = new Map<string, (since: number) => number>();
  readonly #over = new Map<number, (since: number) => boolean>();

  constructor(
    readonly situations: Situations,
    readonly responses: readonly ResponseQuestion[],
  ) {}

  /** The strand after a step did an act: what the act answers is settled, and what it triggers is owed from now on. */
  done(strand: Strand, act: string, by: DoneBy): Strand {
    let owed: Map<string, Owed> | undefined;
    for (const [key, debt] of strand.owed) {
      if (this.responses[debt.response]?.response !== act) continue;
      owed ??= new Map(strand.owed);
      owed.delete(key);
    }
    for (const [response, question] of this.responses.entries()) {
      if (question.trigger !== act) continue;
      owed ??= new Map(strand.owed);
      this.#begin(owed, strand, question, response, by);
    }
    return owed === undefined ? strand : { ...strand, owed };
  }

  #begin(owed: Map<string, Owed>, strand: Strand, question: ResponseQuestion, response: number, by: DoneBy): void {
    const { store } = this.situations;
    const where = question.when === undefined ? store.everywhere : this.situations.region(question.when).holds;
    const key = keyOf({ response, by, origin: new Map() });
    const earlier = owed.get(key);
    const none = store.constant(notOwed);
    const begin = (seconds: number, known: ByScenario<number>): ByScenario<number> =>
      store.combine(store.choose<number>(where, store.constant(seconds), none), known, longest);
    owed.set(key, {
      response,
      by,
      origin: new Map(),
      since: begin(0, earlier?.since ?? none),
      atHoldEnds: strand.holds.map((hold, index) =>
        begin(beyond(hold, question.within), earlier?.atHoldEnds[index] ?? none),
      ),
    });
  }

  /** For every answer that an act gives too late, in some run: which, and where. */
  late(strand: Strand, act: string): readonly { readonly response: number; readonly region: Region }[] {
    const { store } = this.situations;
    return [...strand.owed.values()].flatMap(({ response, since }) => {
      const question = this.responses[response];
      if (question?.response !== act || question.within === undefined) return [];
      const region = store.and(strand.reached, store.map(since, this.#isOver(question.within)));
      return region === store.nowhere ? [] : [{ response, region }];
    });
  }

  /** The situations, when it was triggered, in which some run of the strand still owes an answer. */
  open(strand: Strand, debt: Owed): Region {
    const { store } = this.situations;
    let region = store.and(strand.reached, store.map(debt.since, isOwed));
    for (const [level, cells] of debt.origin) {
      region = store.and(store.forget(region, level, either), store.cells(level, cells));
    }
    return region;
  }

  /** The strand some time later. */
  pass(strand: Strand, time: Interval): Strand {
    return this.#each(strand, (debt, within) => ({ ...debt, since: this.#after(debt.since, time.most, within) }));
  }

  /** The strand when a hold begins: what is owed now is owed that much longer when it ends. */
  beginHold(strand: Strand, takes: Interval, hold: Interval): Strand {
    const begun = this.#each(strand, (debt, within) => ({
      ...debt,
      since: this.#after(debt.since, takes.most, within),
      atHoldEnds: [...debt.atHoldEnds, this.#after(debt.since, takes.most + hold.most, within)],
    }));
    return { ...begun, holds: [...begun.holds, hold.most] };
  }

  /** The strand when the innermost hold and all that was done meanwhile are over. */
  endHold(strand: Strand): Strand {
    const ended = this.#each(strand, (debt) => ({
      ...debt,
      since: this.situations.store.combine(debt.since, debt.atHoldEnds.at(-1) ?? debt.since, longest),
      atHoldEnds: debt.atHoldEnds.slice(0, -1),
    }));
    return { ...ended, holds: ended.holds.slice(0, -1) };
  }

  #each(strand: Strand, change: (debt: Owed, within: number) => Owed): Strand {
    if (strand.owed.size === 0) return strand;
    const owed = new Map<string, Owed>();
    for (const [key, debt] of strand.owed) {
      owed.set(key, change(debt, this.responses[debt.response]?.within ?? 0));
    }
    return { ...strand, owed };
  }

  /** Beyond the limit it does not matter how long, so that the values stay few. */
  #after(since: ByScenario<number>, seconds: number, within: number): ByScenario<number> {
    const key = `${seconds} ${within}`;
    let later = this.#later.get(key);
    if (later === undefined) {
      later = (before) => (before === notOwed ? notOwed : beyond(before + seconds, within));
      this.#later.set(key, later);
    }
    return this.situations.store.map(since, later);
  }

  #isOver(within: number): (since: number) => boolean {
    let over = this.#over.get(within);
    if (over === undefined) {
      over = (since) => since > within;
      this.#over.set(within, over);
    }
    return over;
  }
}

const longest = (a: number, b: number): number => Math.max(a, b);
const either = (a: boolean, b: boolean): boolean => a || b;
const isOwed = (since: number): boolean => since !== notOwed;

/** Seconds up to a limit; everything past it is one value. */
function beyond(seconds: number, within: number | undefined): number {
  if (within === undefined) return 0;
  return seconds > within ? Number.POSITIVE_INFINITY : Math.round(seconds * 1e6) / 1e6;
}
