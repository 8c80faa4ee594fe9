/** A temperature in K and the natural logarithm of the viscosity there. */
export interface Point {
  readonly t: number;
  readonly y: number;
}

/** y = a + b/(t − t0), and by which ratio, less 1, it misses the worst point. */
export interface Fitted {
  readonly a: number;
  readonly b: number;
  readonly t0: number;
  readonly worst: number;
}

/** Andrade's law by least squares of y over 1/t; exact for two points. */
export function fitAndrade(points: readonly Point[]): Fitted {
  return lineAt(points, 0).fitted;
}

/**
 * Vogel-Fulcher-Tammann's law: exact through three points, least squares for more. `undefined` where the best t0 is not
 * above 0 K, or the points bend the other way. The points are sorted by t, y falls.
 */
export function fitVogel(points: readonly Point[]): Fitted | undefined {
  const [first, second, third] = points;
  if (first === undefined || second === undefined || third === undefined) return undefined;
  const t0 = points.length === 3 ? poleThrough(first, second, third) : bestPole(points, first.t);
  return t0 !== undefined && t0 > 0 ? lineAt(points, t0).fitted : undefined;
}

/**
 * The t0 of the law through three points: with r = (y1 − y2)/(y2 − y3) and k = r·(t3 − t2)/(t2 − t1), t0 = (k·t1 −
 * t3)/(k − 1). k is t3/t1 for points on Andrade's law (t0 = 0) and 1 for points on a straight line, where t0 runs away.
 */
function poleThrough(one: Point, two: Point, three: Point): number | undefined {
  const k = (((one.y - two.y) / (two.y - three.y)) * (three.t - two.t)) / (two.t - one.t);
  return k > 1 ? Math.min((k * one.t - three.t) / (k - 1), one.t - nearest) : undefined;
}

/** How near t0 may come to the coldest point, in K: nearer, the law is a wall and no viscosity. */
const nearest = 1;
/** Sections of [0, coldest point] that are looked at before the best is narrowed down. */
const sections = 64;

/**
 * The t0 of least squares: for a given t0 the law is a straight line over 1/(t − t0), so one number is left to find.
 * The best of 64 sections is narrowed by golden section to 10⁻⁶ K.
 */
function bestPole(points: readonly Point[], coldest: number): number {
  const top = coldest - nearest;
  const missAt = (t0: number): number => lineAt(points, t0).miss;
  const poles = Array.from({ length: sections + 1 }, (_, index) => (top * index) / sections);
  const misses = poles.map(missAt);
  const best = misses.indexOf(Math.min(...misses));
  let low = (top * Math.max(0, best - 1)) / sections;
  let high = (top * Math.min(sections, best + 1)) / sections;
  const golden = (Math.sqrt(5) - 1) / 2;
  while (high - low > 1e-6) {
    const left = high - golden * (high - low);
    const right = low + golden * (high - low);
    if (missAt(left) < missAt(right)) high = right;
    else low = left;
  }
  return low < 1e-6 ? 0 : (low + high) / 2;
}

/** The straight line of least squares of y over x = 1/(t − t0), and the sum of the squares that it misses by. */
function lineAt(points: readonly Point[], t0: number): { readonly fitted: Fitted; readonly miss: number } {
  const placed = points.map(({ t, y }) => ({ x: 1 / (t - t0), y }));
  const meanX = mean(placed.map(({ x }) => x));
  const meanY = mean(placed.map(({ y }) => y));
  const spread = sum(placed.map(({ x }) => (x - meanX) ** 2));
  const b = sum(placed.map(({ x, y }) => (x - meanX) * (y - meanY))) / spread;
  const a = meanY - b * meanX;
  const misses = placed.map(({ x, y }) => Math.abs(y - a - b * x));
  return { fitted: { a, b, t0, worst: Math.expm1(Math.max(...misses)) }, miss: sum(misses.map((miss) => miss ** 2)) };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function mean(numbers: readonly number[]): number {
  return sum(numbers) / numbers.length;
}
