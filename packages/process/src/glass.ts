import { type Answer, firstOutside, type Outside, value } from './answer.js';
import { type KelvinDifference, type KelvinPerSecond, type Metre, type Pascal, type Second, si } from './si.js';

/**
 * Soda-lime float glass, SI units. EN 572-1, as given in glass handbooks; other sources have ν 0.22 to 0.23, which is
 * 2.5 % to 4 % more stress.
 */
export const sodaLime = {
  /** Young's modulus in Pa. */
  modulus: 70e9,
  /** Poisson's number. */
  poisson: 0.2,
  /** Thermal expansion from 20 °C to 300 °C, in 1/K. */
  expansion: 9e-6,
  /** kg/m³ */
  density: 2500,
  /** J/(kg·K) */
  heat: 720,
  /** W/(m·K) */
  conductivity: 1,
} as const;

/** Thermal diffusivity λ/(ρc) of glass in m²/s. */
export const diffusivity = sodaLime.conductivity / (sodaLime.density * sodaLime.heat);

/**
 * The difference between hot and cold that a whole annealed float pane tolerates (EN 572-1, as a glass handbook reports
 * it). A damaged pane is far weaker: this bounds and permits nothing.
 */
export const toleratedByWholeGlass: KelvinDifference = si(40, 'temperature-difference');

/** How a part of a pane is held. */
export type Held =
  /** A hot spot that cannot expand to any side: σ = EαΔT/(1 − ν). */
  | 'all-round'
  /** The edge of a pane that is hot in the middle, at most: σ = EαΔT. */
  | 'edge'
  /** A plate that cannot bend, with a straight run of temperature from face to face: σ = EαΔT/(2(1 − ν)). */
  | 'through-thickness';

/**
 * The greatest stress from a difference of temperature, in Pa, for elastic glass with the properties of `sodaLime`.
 * Source: Timoshenko and Goodier, Theory of Elasticity, thermal stress (from memory).
 */
export function thermalStress(difference: KelvinDifference, held: Held): Pascal {
  return si(difference * stressPerKelvin(held), 'pressure');
}

/** The difference of temperature that gives a stress: the inverse of `thermalStress`. */
export function differenceForStress(stress: Pascal, held: Held): KelvinDifference {
  return si(stress / stressPerKelvin(held), 'temperature-difference');
}

function stressPerKelvin(held: Held): number {
  const { modulus, expansion, poisson } = sodaLime;
  switch (held) {
    case 'all-round':
      return (modulus * expansion) / (1 - poisson);
    case 'edge':
      return modulus * expansion;
    case 'through-thickness':
      return (modulus * expansion) / (2 * (1 - poisson));
  }
}

/** A laminated pane: two plies of glass and the film between them. */
export interface Pane {
  readonly outer: Metre;
  readonly film: Metre;
  readonly inner: Metre;
}

/** A windscreen as they usually are; assumed. */
export const usualPane: Pane = {
  outer: si(2.1e-3, 'length'),
  film: si(0.76e-3, 'length'),
  inner: si(2.1e-3, 'length'),
};

/** Thermal conductivity of PVB in W/(m·K), from memory. */
const filmConductivity = 0.2;

/**
 * How far one face of a pane lags behind the other, in seconds, when one is warmed (or cooled) at a steady pace and the
 * other is left alone: ΔT = pace·lag, with lag = (d1 + d2)²/(2a) + ρc·d2·d_film/λ_film; for a single ply, d²/(2a).
 *
 * Heat conduction in one dimension after the start has died away, no heat lost at the far face, film without heat of
 * its own. While the start lasts the difference is smaller, so this errs to the careful side. It sees nothing of
 * differences along the pane.
 */
export function lagOf(pane: Pane): Answer<Second> {
  const outside = paneOutside(pane);
  if (outside !== undefined) return outside;
  const { outer, film, inner } = pane;
  const throughGlass = (outer + inner) ** 2 / (2 * diffusivity);
  const throughFilm = (sodaLime.density * sodaLime.heat * inner * film) / filmConductivity;
  return value(si(throughGlass + throughFilm, 'time'));
}

/** The difference between the faces at a steady pace. */
export function differenceAtPace(pace: KelvinPerSecond, lag: Second): KelvinDifference {
  return si(pace * lag, 'temperature-difference');
}

/** The steady pace at which the faces differ by no more than is allowed; `lag` is above 0. */
export function paceFor(allowed: KelvinDifference, lag: Second): KelvinPerSecond {
  return si(allowed / lag, 'pace');
}

/**
 * The shortest time for warming or cooling by a change, at the steady pace at which the faces differ by what is
 * allowed: t = |change|·lag/allowed. A change greater than what is allowed carries the caveat `only-as-a-whole`: done
 * to one part of a pane, that part differs from the rest by the whole change, however slowly it is done.
 */
export function timeToChange(change: KelvinDifference, allowed: KelvinDifference, lag: Second): Answer<Second> {
  const size = Math.abs(change);
  const outside = firstOutside(
    { of: 'change', given: size, least: 0, most: 1000 },
    { of: 'allowed difference', given: allowed, least: 0.01, most: 1000 },
    { of: 'lag', given: lag, least: 0 },
  );
  if (outside !== undefined) return outside;
  return value(si((size * lag) / allowed, 'time'), size > allowed ? ['only-as-a-whole'] : []);
}

/** The greatest change in a time: the inverse of `timeToChange`. */
export function changeInTime(time: Second, allowed: KelvinDifference, lag: Second): KelvinDifference {
  return si((time * allowed) / lag, 'temperature-difference');
}

function paneOutside({ outer, film, inner }: Pane): Outside | undefined {
  return firstOutside(
    { of: 'outer ply', given: outer, least: 1e-4, most: 0.1 },
    { of: 'film', given: film, least: 0, most: 0.1 },
    { of: 'inner ply', given: inner, least: 0, most: 0.1 },
  );
}
