import type { Caution, StateValue, Test } from '@quarrel/model';
import type { ByScenario, Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import { type Bits, type Layout, type StatePlace, valueAt, withValue } from './layout.js';
import { conjuncts, pushNotInwards, statesOf } from './state-test.js';
import { type Strand, union } from './strand.js';

/**
 * What acts do to states, and what tests ask of them, over all the runs of a strand. Functions on sets of values are made
 * once and kept, so that diagrams remember what they gave.
 */
export class Tracks {
  readonly #images = new Map<string, (bits: Bits) => Bits>();
  readonly #meets = new Map<Bits, (bits: Bits) => boolean>();
  readonly #parts = new WeakMap<Test, readonly Test[]>();
  readonly #states: ReadonlySet<string>;

  constructor(
    readonly situations: Situations,
    readonly layout: Layout,
  ) {
    this.#states = new Set(layout.states.keys());
  }

  /** The strand after a state took a value. */
  make(strand: Strand, made: StateValue): Strand {
    const place = this.layout.states.get(made.state);
    if (place === undefined) return strand;
    return this.#moved(strand, place.track, `${made.state}=${made.value}`, (index) =>
      withValue(place, index, made.value),
    );
  }

  /** The strand after an act counts as done. */
  done(strand: Strand, act: string): Strand {
    return this.#raise(strand, this.layout.acts.get(act));
  }

  /** The strand after some cautions were given. */
  announce(strand: Strand, cautions: readonly Caution[]): Strand {
    return cautions.reduce(
      (told, caution) =>
        caution.kind === 'hazard' ? this.#raise(told, this.layout.hazards.get(caution.hazard)) : told,
      strand,
    );
  }

  #raise(strand: Strand, track: number | undefined): Strand {
    return track === undefined ? strand : this.#moved(strand, track, 'set', () => 1);
  }

  /** Where some run of the strand has a flag set, or not. */
  flag(strand: Strand, track: number, value: 'set' | 'not set'): Region {
    return this.#mayBe(strand, track, value === 'set' ? 2n : 1n);
  }

  /** The values that a state can have, where some run comes. */
  valuesOf(
    strand: Strand,
    state: string,
    intern: (values: ReadonlySet<string>) => ReadonlySet<string>,
  ): ByScenario<ReadonlySet<string>> {
    const { store } = this.situations;
    const none = store.constant(intern(new Set()));
    const place = this.layout.states.get(state);
    const diagram = place === undefined ? undefined : strand.tracks[place.track];
    if (place === undefined || diagram === undefined) {
      const first = this.situations.procedure.vocabulary.states.find((one) => one.name === state)?.values[0];
      return store.choose(
        strand.reached,
        store.constant(intern(new Set(first === undefined ? [] : [first.name]))),
        none,
      );
    }
    const size = this.layout.sizes[place.track] ?? 1;
    const read = (bits: Bits): ReadonlySet<string> =>
      intern(
        new Set(place.values.filter((value) => indexesIn(bits, size).some((index) => valueAt(place, index) === value))),
      );
    return store.choose(strand.reached, store.map(diagram, read), none);
  }

  /** Where some run of the strand does not meet the test. */
  mayFail(strand: Strand, test: Test): Region {
    const { store } = this.situations;
    return this.#partsOf(test).reduce(
      (region, part) => store.or(region, this.#partMayFail(strand, part)),
      store.nowhere,
    );
  }

  /** The strand as if the test had been met: see "Mending an unmet need" in docs/meaning.md. */
  mend(strand: Strand, test: Test): Strand {
    return this.#partsOf(test).reduce((mended, part) => this.#mendPart(mended, part), strand);
  }

  /** The parts that each speak of the states of one track at most. */
  #partsOf(test: Test): readonly Test[] {
    let parts = this.#parts.get(test);
    if (parts === undefined) {
      parts = conjuncts(pushNotInwards(test));
      this.#parts.set(test, parts);
    }
    return parts;
  }

  #partMayFail(strand: Strand, part: Test): Region {
    const { store } = this.situations;
    const track = this.#trackOf(part);
    if (track === undefined) return store.and(strand.reached, this.situations.region(part).fails);
    const masks = new Map<Region, Bits>();
    for (const index of this.#indexesOf(track)) {
      const region = this.#fails(part, index);
      masks.set(region, (masks.get(region) ?? 0n) | (1n << BigInt(index)));
    }
    return [...masks].reduce(
      (failing, [region, mask]) => store.or(failing, store.and(region, this.#mayBe(strand, track, mask))),
      store.nowhere,
    );
  }

  #mendPart(strand: Strand, part: Test): Strand {
    const { store } = this.situations;
    const track = this.#trackOf(part);
    const diagram = track === undefined ? undefined : strand.tracks[track];
    if (track === undefined || diagram === undefined) return strand;
    let mended: ByScenario<Bits> = store.constant(0n);
    for (const index of this.#indexesOf(track)) {
      for (const { region, index: next } of this.#mendIndex(part, index, store.everywhere)) {
        const moved = store.map(diagram, this.#only(index, next));
        mended = store.combine(mended, store.choose(region, moved, store.constant(0n)), union);
      }
    }
    return { ...strand, tracks: strand.tracks.with(track, mended) };
  }

  /** Where the values of a track end up when a part is mended, situation by situation. */
  #mendIndex(
    part: Test,
    index: number,
    region: Region,
  ): readonly { readonly region: Region; readonly index: number }[] {
    const { store } = this.situations;
    const failing = store.and(region, this.#fails(part, index));
    const holding = store.without(region, failing);
    const kept = holding === store.nowhere ? [] : [{ region: holding, index }];
    if (failing === store.nowhere) return kept;
    switch (part.kind) {
      case 'and':
        return part.tests.reduce<readonly { readonly region: Region; readonly index: number }[]>(
          (ends, one) => ends.flatMap((end) => this.#mendIndex(one, end.index, end.region)),
          [{ region, index }],
        );
      case 'or':
        return [...kept, ...this.#mendFirst(part.tests, index, failing)];
      case 'is': {
        const place = this.layout.states.get(part.subject);
        return [...kept, { region: failing, index: place === undefined ? index : this.#allowed(place, part, index) }];
      }
      default:
        return [{ region, index }];
    }
  }

  /** Mends the first of some parts that can be made to hold; none, where none can. */
  #mendFirst(
    parts: readonly Test[],
    index: number,
    region: Region,
  ): readonly { readonly region: Region; readonly index: number }[] {
    const { store } = this.situations;
    const [first, ...others] = parts;
    if (region === store.nowhere) return [];
    if (first === undefined) return [{ region, index }];
    return this.#mendIndex(first, index, region).flatMap((end) => {
      const failing = store.and(end.region, this.#fails(first, end.index));
      const mended = { region: store.without(end.region, failing), index: end.index };
      return [mended, ...this.#mendFirst(others, index, failing)];
    });
  }

  /** The track's number with the first value that the test allows. */
  #allowed(place: StatePlace, test: Test & { readonly kind: 'is' }, index: number): number {
    const value = test.negated ? place.values.find((one) => !test.values.includes(one)) : test.values[0];
    return value === undefined ? index : withValue(place, index, value);
  }

  /** Where a part fails in a run whose track has this number. */
  #fails(part: Test, index: number): Region {
    const { store } = this.situations;
    switch (part.kind) {
      case 'and':
        return part.tests.reduce((region, one) => store.or(region, this.#fails(one, index)), store.nowhere);
      case 'or':
        return part.tests.reduce((region, one) => store.and(region, this.#fails(one, index)), store.everywhere);
      case 'is': {
        const place = this.layout.states.get(part.subject);
        if (place === undefined) return this.situations.region(part).fails;
        return part.values.includes(valueAt(place, index)) === part.negated ? store.everywhere : store.nowhere;
      }
      default:
        return this.situations.region(part).fails;
    }
  }

  #trackOf(part: Test): number | undefined {
    const [state] = statesOf(part, this.#states);
    return state === undefined ? undefined : this.layout.states.get(state)?.track;
  }

  #indexesOf(track: number): readonly number[] {
    return Array.from({ length: this.layout.sizes[track] ?? 1 }, (_, index) => index);
  }

  #mayBe(strand: Strand, track: number, mask: Bits): Region {
    let meets = this.#meets.get(mask);
    if (meets === undefined) {
      meets = (bits) => (bits & mask) !== 0n;
      this.#meets.set(mask, meets);
    }
    const { store } = this.situations;
    const diagram = strand.tracks[track];
    return diagram === undefined ? store.nowhere : store.and(strand.reached, store.map(diagram, meets));
  }

  #moved(strand: Strand, track: number, name: string, move: (index: number) => number): Strand {
    const diagram = strand.tracks[track];
    if (diagram === undefined) return strand;
    const size = this.layout.sizes[track] ?? 1;
    const image = this.#image(`${track} ${name}`, (bits) =>
      indexesIn(bits, size).reduce((moved, index) => moved | (1n << BigInt(move(index))), 0n),
    );
    return { ...strand, tracks: strand.tracks.with(track, this.situations.store.map(diagram, image)) };
  }

  #only(index: number, next: number): (bits: Bits) => Bits {
    return this.#image(`only ${index} to ${next}`, (bits) => ((bits >> BigInt(index)) & 1n) << BigInt(next));
  }

  #image(key: string, make: (bits: Bits) => Bits): (bits: Bits) => Bits {
    let image = this.#images.get(key);
    if (image === undefined) {
      image = make;
      this.#images.set(key, image);
    }
    return image;
  }
}

function indexesIn(bits: Bits, size: number): readonly number[] {
  return Array.from({ length: size }, (_, index) => index).filter((index) => ((bits >> BigInt(index)) & 1n) === 1n);
}
