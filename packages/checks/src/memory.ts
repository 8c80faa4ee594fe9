import { type Interpretation, interpret } from '@quarrel/analysis';
import { digestOf, type Procedure } from '@quarrel/model';
import { type Asked, askedOf } from './asked.js';
import type { Told } from './situation.js';

/** What is kept of a procedure for as long as it means the same. */
export interface Kept {
  /** Of the procedure's meaning: the places of its words do not count. */
  readonly digest: string;
  readonly interpretation: Interpretation;
  readonly asked: Asked;
  /** Situations already put into words, by what they were told of. */
  readonly told: Map<string, Told>;
  /** Whether it was computed for this very call. */
  readonly isFresh: boolean;
}

/**
 * Remembers runs by the digest of what a procedure means, so that an unchanged one costs no run even where its lines moved. The
 * one asked for longest ago is forgotten first.
 */
export class Memory {
  readonly #kept = new Map<string, Kept>();

  /** `most` is how many procedures are remembered. */
  constructor(readonly most = 100) {}

  /** What the procedure means, from memory or computed now. */
  recall(procedure: Procedure): Kept {
    const digest = digestOf(procedure);
    const known = this.#kept.get(digest);
    this.#kept.delete(digest);
    const kept = known === undefined ? computed(procedure, digest) : { ...known, isFresh: false };
    this.#kept.set(digest, kept);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= this.most) break;
      this.#kept.delete(oldest);
    }
    return kept;
  }

  forget(digest: string): void {
    this.#kept.delete(digest);
  }
}

function computed(procedure: Procedure, digest: string): Kept {
  const asked = askedOf(procedure);
  const interpretation = interpret(procedure, asked.questions);
  return { digest, interpretation, asked, told: new Map(), isFresh: true };
}
