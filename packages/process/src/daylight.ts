import { type Answer, firstOutside, none, value } from './answer.js';
import { type Ratio, type Second, si, type WattPerSquareMetre } from './si.js';

/** How a figure is known. `from memory`: to be looked up before anyone leans on it. `ours`: for want of a source. */
export type Standing = 'seen' | 'from memory' | 'ours';

/** A published or assumed range, in SI units, and what is known of it. */
export interface Known<T> {
  readonly least: T;
  readonly most: T;
  readonly standing: Standing;
  readonly source: string;
}

/** Where resin stands open. */
export type Light = 'sun' | 'overcast' | 'shade' | 'indoors';

/** UV-A of daylight, 315 nm to 400 nm, on a level surface. 10 W/m² are 1 mW/cm². */
export const daylight: Readonly<Record<Light, Known<WattPerSquareMetre>>> = {
  sun: light(
    40,
    60,
    'from memory',
    'clear summer noon at middle latitudes; CIE 85:1989 gives 70 with the sun overhead',
  ),
  overcast: light(10, 25, 'from memory', 'overcast summer noon at middle latitudes'),
  shade: light(12, 30, 'from memory', '30 % to 50 % of the UV-A of a clear sky comes from the sky beside the sun'),
  indoors: light(0.05, 2, 'ours', 'no source: from lamplight in a closed hall to beside an open door'),
};

function light(least: number, most: number, standing: Standing, source: string): Known<WattPerSquareMetre> {
  return { least: si(least, 'irradiance'), most: si(most, 'irradiance'), standing, source };
}

/** What lies between a lamp and the resin of a break in the outer ply. */
export type LightPath = 'outer-ply' | 'through-film';

/**
 * The share of 365 nm that comes through. The film stops nearly all: a lamp inside the vehicle does not cure the break.
 */
export const passedLight: Readonly<Record<LightPath, Known<Ratio>>> = {
  'outer-ply': {
    least: si(0.7, 'ratio'),
    most: si(0.85, 'ratio'),
    standing: 'from memory',
    source: 'clear soda-lime float of 3 mm to 6 mm, glass textbooks; one ply is thinner, tint takes more',
  },
  'through-film': {
    least: si(0.02, 'ratio'),
    most: si(0.16, 'ratio'),
    standing: 'seen',
    source: 'Boxer Wachler 2016, JAMA Ophthalmol. 134:772: 95 % to 98 % of UV-A stopped; tinted glass down to 84 %',
  },
};

/** A datasheet's line: open so long under so much light. */
export interface OpenTime {
  readonly time: Second;
  readonly under: WattPerSquareMetre;
}

/**
 * How long resin stays open under other light than its datasheet's: t = t1·E1/E, that is, the same dose (reciprocity of
 * Bunsen and Roscoe, from memory). Assumes that both lights have the same share of wavelengths that start the cure.
 * Free-radical cure follows reciprocity only roughly: ends of chains that meet make time fall more slowly than 1/E,
 * oxygen makes it rise faster under weak light. Far from the datasheet's irradiance (a factor of ten) this is an order
 * of magnitude.
 */
export function openTimeUnder(open: OpenTime, irradiance: WattPerSquareMetre): Answer<Second> {
  if (irradiance === 0) return none('no-light');
  const outside = openOutside(open) ?? firstOutside({ of: 'irradiance', given: irradiance, least: 1e-9, most: 1e7 });
  return outside ?? value(si((open.time * open.under) / irradiance, 'time'));
}

/** The irradiance under which resin stays open for exactly this time; under more it gels sooner. */
export function irradianceForOpenTime(open: OpenTime, time: Second): Answer<WattPerSquareMetre> {
  const outside = openOutside(open) ?? firstOutside({ of: 'time', given: time, least: 1e-6 });
  return outside ?? value(si((open.time * open.under) / time, 'irradiance'));
}

function openOutside({ time, under }: OpenTime) {
  return firstOutside(
    { of: 'time', given: time, least: 0 },
    { of: 'irradiance of the datasheet', given: under, least: 0, most: 1e7 },
  );
}
