import { type Answer, type Caveat, firstOutside, none, value, whenKnown } from './answer.js';
import { fitAndrade, fitVogel, type Point } from './fit.js';
import { type Kelvin, type PascalSecond, si } from './si.js';

/** A line of a datasheet. */
export interface ViscosityPoint {
  readonly temperature: Kelvin;
  readonly viscosity: PascalSecond;
}

/**
 * A resin's viscosity as a function of temperature: ln η = a + b/(T − t0), η in Pa·s, T in K, falling with temperature.
 * One point: `as-given`, the same at every temperature (b = 0). Two points, or more that bend less than Andrade's law:
 * `andrade` (t0 = 0). Otherwise `vogel`.
 */
export interface ViscosityCurve {
  readonly law: 'as-given' | 'andrade' | 'vogel';
  readonly a: number;
  /** In K. */
  readonly b: number;
  /** In K, below every point. */
  readonly t0: number;
  /** The coldest and the warmest point. */
  readonly coldest: Kelvin;
  readonly warmest: Kelvin;
  /**
   * The greatest ratio, less 1, between the curve and a point. 0 for one, two and three points that a law goes through.
   */
  readonly worst: number;
}

/**
 * How far beyond its points a curve may be used, in K. At 10 K beyond, Andrade's law through two points of the
 * reference liquids (water, glycerol) is up to 12 % low on the cold side; at 20 K it is up to 27 % low. Vogel's through
 * three is within 8 % at 20 K. A Vogel curve goes no more than a third of the way to its pole.
 */
export const margins = { andrade: 10, vogel: 20 } as const;

/** Above this share of missing a point, a curve carries the caveat `fits-loosely`. */
const loose = 0.05;

/**
 * The curve through a datasheet's points.
 *
 * Andrade's law, η = A·exp(B/T), for two points; Vogel-Fulcher-Tammann, ln η = a + B/(T − T0), through three, and by
 * least squares of ln η (that is, of relative errors) for more. Points that bend less than Andrade's law would put T0
 * below 0 K, which has no meaning: they get Andrade's law by least squares, which is Vogel's at the bound T0 = 0.
 *
 * Valid for points whose viscosity falls from each to the next warmer. Source: Andrade 1930 (Nature 125:309), Vogel
 * 1921 (Phys. Z. 22:645), Fulcher 1925, Tammann and Hesse 1926, from memory; the closed form for three points is
 * elementary.
 */
export function viscosityCurve(points: readonly ViscosityPoint[]): Answer<ViscosityCurve> {
  return whenKnown(sorted(points), curveThrough);
}

/** The curve through points that are sorted and sound. */
function curveThrough(points: readonly Point[]): Answer<ViscosityCurve> {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return none('no-points');
  const ends = { coldest: si(first.t, 'temperature'), warmest: si(last.t, 'temperature') };
  if (points.length === 1) return value({ law: 'as-given', a: first.y, b: 0, t0: 0, ...ends, worst: 0 });
  const vogel = points.length > 2 ? fitVogel(points) : undefined;
  const fitted = vogel ?? fitAndrade(points);
  return value({ law: vogel === undefined ? 'andrade' : 'vogel', ...fitted, ...ends });
}

/** In K: two points nearer to each other say more of the thermometer than of the resin. */
const apart = 0.5;

/** The points from cold to warm, as T and ln η, each temperature once. */
function sorted(points: readonly ViscosityPoint[]): Answer<readonly Point[]> {
  const sane = points.flatMap(({ temperature, viscosity }) => [
    { of: 'temperature', given: temperature, least: 150, most: 700 },
    { of: 'viscosity', given: viscosity, least: 1e-6, most: 1e9 },
  ]);
  const outside = firstOutside(...sane);
  if (outside !== undefined) return outside;
  const cleaned: Point[] = [];
  for (const { temperature, viscosity } of [...points].sort((one, other) => one.temperature - other.temperature)) {
    const point = { t: temperature, y: Math.log(viscosity) };
    const before = cleaned.at(-1);
    if (before?.t === point.t && before.y === point.y) continue;
    if (before !== undefined && point.t - before.t < apart) return none('two-values-at-one-temperature');
    if (before !== undefined && before.y <= point.y) return none('viscosity-does-not-fall');
    cleaned.push(point);
  }
  return value(cleaned);
}

/** The temperatures at which a curve may be used; one point is a bound everywhere, so it may be used at any. */
export function rangeOf(curve: ViscosityCurve): { readonly least: Kelvin; readonly most: Kelvin } {
  if (curve.law === 'as-given') return { least: si(150, 'temperature'), most: si(700, 'temperature') };
  const margin = margins[curve.law];
  const cold = curve.law === 'vogel' ? Math.min(margin, (curve.coldest - curve.t0) / 3) : margin;
  return { least: si(curve.coldest - cold, 'temperature'), most: si(curve.warmest + margin, 'temperature') };
}

/** The viscosity at a temperature. Never rises with temperature; outside of `rangeOf` there is no answer. */
export function viscosityAt(curve: ViscosityCurve, temperature: Kelvin): Answer<PascalSecond> {
  const outside = firstOutside({ of: 'temperature', given: temperature, ...rangeOf(curve) });
  if (outside !== undefined) return outside;
  const { a, b, t0 } = curve;
  return value(si(Math.exp(a + b / (temperature - t0)), 'viscosity'), caveatsAt(curve, temperature));
}

/**
 * The temperature at which a resin has a viscosity: T = T0 + b/(ln η − a), the exact inverse of `viscosityAt`. Where
 * that lies outside of the curve's range, the answer tells on which side: colder, where the resin is thinner than this
 * all over the range, or warmer (`given` is infinite for a viscosity that the law never falls to).
 */
export function temperatureAt(curve: ViscosityCurve, viscosity: PascalSecond): Answer<Kelvin> {
  if (curve.law === 'as-given') return none('single-point-has-no-slope');
  const outside = firstOutside({ of: 'viscosity', given: viscosity, least: 0, most: Number.MAX_VALUE });
  if (outside !== undefined) return outside;
  const { a, b, t0 } = curve;
  const above = Math.log(viscosity) - a;
  const temperature = above > 0 ? t0 + b / above : Number.POSITIVE_INFINITY;
  const beyond = firstOutside({ of: 'temperature', given: temperature, ...rangeOf(curve) });
  if (beyond !== undefined) return beyond;
  return value(si(temperature, 'temperature'), caveatsAt(curve, temperature));
}

function caveatsAt(curve: ViscosityCurve, temperature: number): readonly Caveat[] {
  const colder = temperature < curve.coldest;
  const warmer = temperature > curve.warmest;
  if (curve.law === 'as-given') {
    if (colder) return ['single-point-colder'];
    return [warmer ? 'single-point-warmer' : 'single-point'];
  }
  return [
    ...(colder ? (['colder-than-data'] as const) : []),
    ...(warmer ? (['warmer-than-data'] as const) : []),
    ...(curve.worst > loose ? (['fits-loosely'] as const) : []),
  ];
}
