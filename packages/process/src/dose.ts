import { type Answer, firstOutside, none, type Outside, value } from './answer.js';
import type { WattPerSquareMetre } from './si.js';
import { type JoulePerSquareMetre, type Metre, type Radian, type Ratio, type Second, si } from './si.js';

/** A lamp as its datasheet gives it. */
export interface Lamp {
  /** New, square to the glass, at `distance`. */
  readonly irradiance: WattPerSquareMetre;
  readonly distance: Metre;
}

/** How a lamp stands over a break. */
export interface Placing {
  readonly distance: Metre;
  /** Between the beam and the line square to the glass: 0 is straight on; below 90°. */
  readonly angle: Radian;
  /** What an aged lamp still gives of its datasheet's irradiance. */
  readonly output: Ratio;
  /** What comes through all that lies between lamp and resin. */
  readonly passed: Ratio;
}

/**
 * The irradiance at the resin: E = E0·(d0/d)²·cos θ·output·passed; even all over the spot.
 *
 * The inverse square is a point source's. Beyond the datasheet's distance a wide or collimated source loses less, so
 * this errs to the dark side; a lamp with a focus behind the glass can lose more or gain, and has to be measured.
 * Nearer than that distance no gain is counted (caveat `nearer-than-given`). Photometry, any textbook; the inverse
 * square is within about 1 % beyond five times the source's size (from memory).
 */
export function irradianceAt(lamp: Lamp, placing: Placing): Answer<WattPerSquareMetre> {
  const outside = placingOutside(lamp, placing);
  if (outside !== undefined) return outside;
  const { distance, angle, output, passed } = placing;
  const nearer = distance < lamp.distance;
  const faded = nearer ? 1 : (lamp.distance / distance) ** 2;
  const irradiance = lamp.irradiance * faded * Math.cos(angle) * output * passed;
  return value(si(irradiance, 'irradiance'), nearer ? ['nearer-than-given'] : []);
}

/**
 * The greatest distance at which a lamp still gives an irradiance; none where it does not give it at its own distance.
 */
export function distanceFor(
  lamp: Lamp,
  placing: Omit<Placing, 'distance'>,
  irradiance: WattPerSquareMetre,
): Answer<Metre> {
  const { angle, output, passed } = placing;
  const outside = placingOutside(lamp, { ...placing, distance: lamp.distance });
  if (outside !== undefined) return outside;
  const nearest = lamp.irradiance * Math.cos(angle) * output * passed;
  const beyond = firstOutside({ of: 'irradiance', given: irradiance, least: 1e-9, most: nearest });
  return beyond ?? value(si(lamp.distance * Math.sqrt(nearest / irradiance), 'length'));
}

function placingOutside(lamp: Lamp, { distance, angle, output, passed }: Placing): Outside | undefined {
  return firstOutside(
    { of: 'irradiance', given: lamp.irradiance, least: 0, most: 1e7 },
    { of: 'distance of the datasheet', given: lamp.distance, least: 1e-4, most: 10 },
    { of: 'distance', given: distance, least: 0, most: 100 },
    { of: 'angle', given: angle, least: 0, most: Math.PI / 2 },
    { of: 'output', given: output, least: 0, most: 1 },
    { of: 'passed', given: passed, least: 0, most: 1 },
  );
}

/** W/m² that a lamp or a day may give, and starlight. */
const bright = { least: 1e-9, most: 1e7 } as const;

/** The dose of an irradiance over a time: H = E·t. */
export function doseOver(irradiance: WattPerSquareMetre, time: Second): JoulePerSquareMetre {
  return si(irradiance * time, 'dose');
}

/** The time in which an irradiance gives a dose: t = H/E. */
export function timeForDose(dose: JoulePerSquareMetre, irradiance: WattPerSquareMetre): Answer<Second> {
  if (irradiance === 0) return none('no-light');
  const outside = firstOutside(
    { of: 'dose', given: dose, least: 0 },
    { of: 'irradiance', given: irradiance, ...bright },
  );
  return outside ?? value(si(dose / irradiance, 'time'));
}

/** The irradiance that gives a dose in a time: E = H/t. */
export function irradianceForDose(dose: JoulePerSquareMetre, time: Second): Answer<WattPerSquareMetre> {
  const outside = firstOutside({ of: 'dose', given: dose, least: 0 }, { of: 'time', given: time, least: 1e-6 });
  return outside ?? value(si(dose / time, 'irradiance'));
}

/**
 * Positions of a lamp along a crack. The spot is taken to be as wide as the datasheet gives it; overlap counts nothing.
 */
export function positionsAlong(crack: Metre, spot: Metre): Answer<number> {
  const outside = spotOutside(crack, spot);
  return outside ?? value(Math.max(1, Math.ceil(settled(crack / spot))));
}

/**
 * The fewest positions of a round spot that cover a round break. How much larger than the spot a break may be for 1, 3,
 * 4, 5 and 7 positions is the covering of a disc by equal discs (Kershner 1939, Bezdek; from memory; six cover little
 * more than five). No answer beyond twice the spot.
 */
export function positionsOver(diameter: Metre, spot: Metre): Answer<number> {
  const outside = spotOutside(diameter, spot);
  if (outside !== undefined) return outside;
  const ratio = settled(diameter / spot);
  const enough = coverings.find(({ reach }) => ratio <= reach);
  return enough === undefined
    ? { kind: 'outside', of: 'diameter', given: diameter, least: 0, most: 2 * spot }
    : value(enough.positions);
}

const coverings = [
  { positions: 1, reach: 1 },
  { positions: 3, reach: 2 / Math.sqrt(3) },
  { positions: 4, reach: Math.SQRT2 },
  { positions: 5, reach: 1.641 },
  { positions: 7, reach: 2 },
] as const;

function spotOutside(size: Metre, spot: Metre): Outside | undefined {
  return firstOutside(
    { of: 'size', given: size, least: 0, most: 10 },
    { of: 'spot', given: spot, least: 1e-4, most: 10 },
  );
}

/** Free of the digits that division adds, so that 120 mm are two spots of 60 mm. */
function settled(ratio: number): number {
  return Number(ratio.toPrecision(12));
}
