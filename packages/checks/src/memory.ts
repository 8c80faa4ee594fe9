import { type Interpretation, interpret } from '@quarrel/analysis';
import { isSame, type Procedure, runsAlike, type Step, stepsOf, type Vocabulary } from '@quarrel/model';
import { type Asked, askedOf } from './asked.js';
import type { Told } from './situation.js';
import type { Filed } from './waive.js';

/** What is kept of a procedure for as long as the work goes the same way by it. */
export interface Kept {
  readonly interpretation: Interpretation;
  readonly asked: Asked;
  /** Situations already put into words, by what they were told of. */
  readonly told: Map<string, Told>;
}

/** How many runs of one procedure are remembered: what an author goes back to is what was there a moment ago. */
const ofOneProcedure = 4;

/** Something kept, with what it was computed of. */
interface Entry extends Kept {
  /** With the vocabulary that stands for all that are like it. */
  readonly procedure: Procedure;
  readonly steps: number;
  readonly rhythm: number;
}

/**
 * A number made of the times of a procedure. What is edited most are times, and comparing two numbers tells at once what a comparison of
 * the procedures would find half-way through.
 */
function rhythmOf(steps: readonly Step[]): number {
  let rhythm = steps.length;
  for (const { takes, hold } of steps) {
    for (const end of [takes?.least, takes?.most, hold?.least, hold?.most]) {
      rhythm = (Math.imul(rhythm, 31) + Math.round((end?.si ?? -1) * 1000)) | 0;
    }
  }
  return rhythm;
}

/**
 * Remembers runs, so that a procedure by which the work goes as it went costs none, even where its lines moved or its words
 * for people changed. The one asked for longest ago is forgotten first.
 */
export class Memory {
  /** What was last said of a procedure by what is kept of it, and of what procedure, to the letter. */
  readonly #said = new WeakMap<Kept, { readonly procedure: Procedure; readonly filed: readonly Filed[] }>();
  /** For a vocabulary of a sheet that was lowered anew: the one that says the same in the same places. */
  readonly #standing = new WeakMap<Vocabulary, Vocabulary>();
  /** By sheet and name, the newest last. */
  readonly #byName = new Map<string, readonly Entry[]>();
  /** All of them, the one asked for longest ago first. */
  readonly #inOrder = new Set<Entry>();
  /** For a vocabulary of a sheet that was lowered anew: the one like it that entries hold. */
  readonly #vocabularies = new WeakMap<Vocabulary, Vocabulary>();

  /** All their steps together. */
  #steps = 0;

  /** `most` is how many steps all that is remembered may have together; a step takes some 3 KiB (measured). */
  constructor(readonly most = 20_000) {}

  /** What the procedure means, from memory or computed now; `isFresh` says which. */
  recall(procedure: Procedure): { readonly kept: Kept; readonly isFresh: boolean } {
    const steps = stepsOf(procedure);
    const rhythm = rhythmOf(steps);
    const known = this.#find(procedure, rhythm);
    if (known !== undefined) {
      this.#inOrder.delete(known);
      this.#inOrder.add(known);
      return { kept: known, isFresh: false };
    }
    const entry = {
      ...computed(procedure),
      procedure: this.#settled(procedure, procedure.vocabulary),
      steps: steps.length,
      rhythm,
    };
    this.#remember(entry);
    return { kept: entry, isFresh: true };
  }

  /** What the rules said of the procedure, if it stands as it stood then: what they say tells words and places. */
  said(kept: Kept, procedure: Procedure): readonly Filed[] | undefined {
    const said = this.#said.get(kept);
    if (said === undefined || !this.#stands(procedure.vocabulary, said.procedure.vocabulary)) return undefined;
    return isSame({ ...said.procedure, vocabulary: procedure.vocabulary }, procedure) ? said.filed : undefined;
  }

  /** Keeps what the rules said of the procedure. */
  say(kept: Kept, procedure: Procedure, filed: readonly Filed[]): void {
    const vocabulary = this.#standing.get(procedure.vocabulary) ?? procedure.vocabulary;
    this.#said.set(kept, { procedure: { ...procedure, vocabulary }, filed });
  }

  /** Forgets what was computed of a procedure. */
  forget(procedure: Procedure): void {
    const known = this.#find(procedure, rhythmOf(stepsOf(procedure)));
    if (known !== undefined) this.#drop(known);
  }

  #find(procedure: Procedure, rhythm: number): Entry | undefined {
    const entries = this.#byName.get(keyOf(procedure)) ?? [];
    const newest = entries.at(-1);
    if (newest === undefined) return undefined;
    const settled = this.#settled(procedure, newest.procedure.vocabulary);
    return entries.findLast((entry) => entry.rhythm === rhythm && runsAlike(entry.procedure, settled));
  }

  #remember(entry: Entry): void {
    const key = keyOf(entry.procedure);
    const before = this.#byName.get(key) ?? [];
    this.#byName.set(key, [...before, entry]);
    this.#inOrder.add(entry);
    this.#steps += entry.steps;
    for (const old of before.slice(0, 1 - ofOneProcedure)) this.#drop(old);
    for (const oldest of this.#inOrder) {
      if (this.#steps <= this.most || oldest === entry) break;
      this.#drop(oldest);
    }
  }

  #drop(entry: Entry): void {
    if (this.#inOrder.delete(entry)) this.#steps -= entry.steps;
    const key = keyOf(entry.procedure);
    const left = (this.#byName.get(key) ?? []).filter((one) => one !== entry);
    if (left.length === 0) this.#byName.delete(key);
    else this.#byName.set(key, left);
  }

  /** Whether a vocabulary stands as one held does; compared once for all procedures of a sheet. */
  #stands(vocabulary: Vocabulary, held: Vocabulary): boolean {
    if (vocabulary === held || this.#standing.get(vocabulary) === held) return true;
    if (!isSame(vocabulary, held)) return false;
    this.#standing.set(vocabulary, held);
    return true;
  }

  /** The procedure with the vocabulary that entries hold, so that it is compared once for all procedures of a sheet. */
  #settled(procedure: Procedure, held: Vocabulary): Procedure {
    const { vocabulary } = procedure;
    let settled = this.#vocabularies.get(vocabulary);
    if (settled === undefined) {
      settled = runsAlike(held, vocabulary) ? held : vocabulary;
      this.#vocabularies.set(vocabulary, settled);
    }
    return { ...procedure, vocabulary: settled };
  }
}

function keyOf({ uri, name }: Procedure): string {
  return `${uri} ${name}`;
}

function computed(procedure: Procedure): Kept {
  const asked = askedOf(procedure);
  const interpretation = interpret(procedure, asked.questions);
  return { interpretation, asked, told: new Map() };
}
