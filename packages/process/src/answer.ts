/**
 * What a function of this package answers. Nothing here throws on a value that a sheet could hold: a value out of a
 * formula's validity is an answer too.
 */
export type Answer<T> = Value<T> | Outside | None;

export interface Value<T> {
  readonly kind: 'value';
  readonly value: T;
  /** What whoever leans on the value has to be told beside it. */
  readonly caveats: readonly Caveat[];
}

/** A value lies where the formula may not be used. The ends of the range itself may be used. */
export interface Outside {
  readonly kind: 'outside';
  /** What lies outside: `temperature`, `contact angle`. */
  readonly of: string;
  /** In SI units, as are the ends. */
  readonly given: number;
  readonly least: number;
  readonly most: number;
}

/** There is no such value. */
export interface None {
  readonly kind: 'none';
  readonly because: Reason;
}

export type Caveat =
  /** One datasheet value, used at its own temperature. */
  | 'single-point'
  /** One datasheet value, used where it is colder: the viscosity is this or more. */
  | 'single-point-colder'
  /** One datasheet value, used where it is warmer: the viscosity is this or less. */
  | 'single-point-warmer'
  /** Colder than the coldest datasheet value; two points underestimate viscosity there. */
  | 'colder-than-data'
  /** Warmer than the warmest datasheet value. */
  | 'warmer-than-data'
  /** The curve misses a datasheet value by more than 5 %. */
  | 'fits-loosely'
  /** Nearer to the lamp than its datasheet's distance: no gain is counted. */
  | 'nearer-than-given'
  /**
   * A part warmed alone would differ from the rest of the pane by more than is allowed, however slowly it is warmed.
   */
  | 'only-as-a-whole'
  /** The likely gaps of the calibration lie more than a factor of two apart. */
  | 'unsure-gap';

export type Reason =
  /** A quantity measures something else. */
  | 'wrong-dimension'
  /** A curve needs a point. */
  | 'no-points'
  /** One temperature, or two less than 0.5 K apart, have two viscosities. */
  | 'two-values-at-one-temperature'
  /** Viscosity has to fall as temperature rises, from every point to the next. */
  | 'viscosity-does-not-fall'
  /** One point says nothing of how viscosity changes. */
  | 'single-point-has-no-slope'
  /** Capillary forces push the resin out as hard as the pressure pushes it in, or harder. */
  | 'never-fills'
  /** A calibration needs at least three repairs. */
  | 'too-few-repairs'
  /** No light, no dose. */
  | 'no-light';

export function value<T>(value: T, caveats: readonly Caveat[] = []): Value<T> {
  return { kind: 'value', value, caveats };
}

export function none(because: Reason): None {
  return { kind: 'none', because };
}

/** Beyond anything that a sheet means, in any SI unit; below it, products and quotients stay finite. */
const vast = 1e15;

/** The first of the values that lies outside its range (both ends included); a value that is no number lies outside. */
export function firstOutside(
  ...limits: readonly { of: string; given: number; least: number; most?: number }[]
): Outside | undefined {
  for (const { of, given, least, most = vast } of limits) {
    if (!(given >= least && given <= most)) return { kind: 'outside', of, given, least, most };
  }
  return undefined;
}

/**
 * Goes on with the value, if there is one, and keeps what has to be told beside it. (Never call it `then`: a module
 * that exports a `then` is taken for a promise by `import()`, and never arrives.)
 */
export function whenKnown<T, U>(answer: Answer<T>, next: (value: T) => Answer<U>): Answer<U> {
  if (answer.kind !== 'value') return answer;
  const result = next(answer.value);
  if (result.kind !== 'value' || answer.caveats.length === 0) return result;
  return value(result.value, [...new Set([...answer.caveats, ...result.caveats])]);
}
