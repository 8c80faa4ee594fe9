import { type Answer, firstOutside, value, whenKnown } from './answer.js';
import { type CubicMetre, type Metre, type Pascal, type Ratio, si } from './si.js';

/** Constants of ISO 2533:1975 (as of the U.S. Standard Atmosphere 1976) for its lowest layer. */
const standard = {
  pressure: 101_325,
  temperature: 288.15,
  lapse: 0.0065,
  exponent: (9.80665 * 0.0289644) / (8.31432 * 0.0065),
};
const layer = { least: -2000, most: 11_000 };

/** Station pressure moves about this much with the weather, up and down, in Pa (from memory). */
export const weatherSwing: Pascal = si(3000, 'pressure');

/**
 * Ambient pressure at an altitude: p = 101 325·(1 − 0.0065·H/288.15)^5.25588, absolute, from −2000 m to 11 000 m. H is
 * geopotential; a geometric altitude taken for it gives 0.02 % too little at 3000 m, against ±3 % of weather. Source:
 * ISO 2533:1975.
 */
export function pressureAtAltitude(altitude: Metre): Answer<Pascal> {
  const outside = firstOutside({ of: 'altitude', given: altitude, ...layer });
  return outside ?? value(si(standardPressure(altitude), 'pressure'));
}

function standardPressure(altitude: number): number {
  return standard.pressure * (1 - (standard.lapse * altitude) / standard.temperature) ** standard.exponent;
}

/**
 * The altitude of an ambient pressure, and so the one above which a gauge vacuum cannot be had: the inverse of the
 * above.
 */
export function altitudeOfPressure(ambient: Pascal): Answer<Metre> {
  const ends = { least: standardPressure(layer.most), most: standardPressure(layer.least) };
  const outside = firstOutside({ of: 'pressure', given: ambient, ...ends });
  if (outside !== undefined) return outside;
  const rise = 1 - (ambient / standard.pressure) ** (1 / standard.exponent);
  return value(si((standard.temperature / standard.lapse) * rise, 'length'));
}

/** How a datasheet gives a vacuum: below ambient (gauge), or as a share of ambient pressure. Never absolute. */
export type Vacuum =
  | { readonly kind: 'gauge'; readonly below: Pascal }
  | { readonly kind: 'share'; readonly of: Ratio };

/**
 * A vacuum as a gauge pressure below ambient. The deepest that can be had is ambient itself; a deeper one lies outside.
 * A share is of the ambient pressure of the place, so it can be had anywhere and pulls less high up.
 */
export function vacuumDrawn(vacuum: Vacuum, ambient: Pascal): Answer<Pascal> {
  const thin = firstOutside({ of: 'ambient pressure', given: ambient, least: 1 });
  if (thin !== undefined) return thin;
  if (vacuum.kind === 'gauge') {
    const outside = firstOutside({ of: 'vacuum', given: vacuum.below, least: 0, most: ambient });
    return outside ?? value(vacuum.below);
  }
  const outside = firstOutside({ of: 'share of ambient', given: vacuum.of, least: 0, most: 1 });
  return outside ?? value(si(vacuum.of * ambient, 'pressure'));
}

/** The absolute pressure that a vacuum leaves in a break. */
export function pressureLeft(vacuum: Vacuum, ambient: Pascal): Answer<Pascal> {
  return whenKnown(vacuumDrawn(vacuum, ambient), (drawn) => value(si(ambient - drawn, 'pressure')));
}

/** The share of the air that a vacuum leaves in a break, at the same temperature. */
export function airLeft(vacuum: Vacuum, ambient: Pascal): Answer<Ratio> {
  return whenKnown(pressureLeft(vacuum, ambient), (left) => value(si(left / ambient, 'ratio')));
}

/** The volume of a pocket of air at another absolute pressure and the same temperature: V2 = V1·p1/p2 (Boyle). */
export function volumeAt(volume: CubicMetre, from: Pascal, to: Pascal): Answer<CubicMetre> {
  const outside = firstOutside(
    { of: 'volume', given: volume, least: 0 },
    { of: 'pressure', given: from, least: 0 },
    { of: 'pressure', given: to, least: 1 },
  );
  return outside ?? value(si((volume * from) / to, 'volume'));
}
