import { type Answer, firstOutside, value, whenKnown } from './answer.js';
import { type Kelvin, type Pascal, type Ratio, si } from './si.js';
import { crossing } from './solve.js';

/** Triple point of water (ITS-90): below it glass takes on frost, above it dew. */
export const triplePoint: Kelvin = si(273.16, 'temperature');

/**
 * Air as instruments give it. Relative humidity is over liquid water also below 0 °C, as meteorology has it (WMO-No.
 * 8).
 */
export interface Air {
  readonly temperature: Kelvin;
  /** Above 0, at most 1. */
  readonly humidity: Ratio;
}

const overWater = { least: 173.15, most: 373.15 };
const overIce = { least: 173.15, most: triplePoint };

/**
 * Saturation pressure of water vapour over liquid water, in Pa, from −100 °C (supercooled) to 100 °C:
 * ln e = −6096.9385/T + 21.2409642 − 2.711193·10⁻²·T + 1.673952·10⁻⁵·T² + 2.433502·ln T.
 * Source: Sonntag 1994, Meteorol. Z. 3:51. Within 0.02 % of IAPWS-IF97 from 0 °C to 60 °C.
 */
export function saturationOverWater(temperature: Kelvin): Answer<Pascal> {
  const outside = firstOutside({ of: 'temperature', given: temperature, ...overWater });
  return outside ?? value(si(Math.exp(logOverWater(temperature)), 'pressure'));
}

/**
 * Saturation pressure of water vapour over ice, in Pa, from −100 °C to 0.01 °C:
 * ln e = −6024.5282/T + 29.32707 + 1.0613868·10⁻²·T − 1.3198825·10⁻⁵·T² − 0.49382577·ln T.
 * Source: Sonntag 1994, from memory. Within 0.02 % of IAPWS 2011 from −20 °C to 0 °C.
 */
export function saturationOverIce(temperature: Kelvin): Answer<Pascal> {
  const outside = firstOutside({ of: 'temperature', given: temperature, ...overIce });
  return outside ?? value(si(Math.exp(logOverIce(temperature)), 'pressure'));
}

function logOverWater(t: number): number {
  return -6096.9385 / t + 21.2409642 - 2.711193e-2 * t + 1.673952e-5 * t ** 2 + 2.433502 * Math.log(t);
}

function logOverIce(t: number): number {
  return -6024.5282 / t + 29.32707 + 1.0613868e-2 * t - 1.3198825e-5 * t ** 2 - 0.49382577 * Math.log(t);
}

/** The pressure of the water vapour in the air: e = humidity·e_s over water. */
export function vapourPressure(air: Air): Answer<Pascal> {
  const outside = firstOutside({ of: 'humidity', given: air.humidity, least: 0, most: 1 });
  if (outside !== undefined) return outside;
  return whenKnown(saturationOverWater(air.temperature), (saturated) =>
    value(si(air.humidity * saturated, 'pressure')),
  );
}

/** In K; a thermometer is a hundred thousand times coarser. */
const precision = 1e-7;

/**
 * The temperature of a surface below which dew settles on it: where e_s over water is the air's vapour pressure. Never
 * above the air's temperature. Found by halving to 10⁻⁷ K.
 */
export function dewPoint(air: Air): Answer<Kelvin> {
  return whenKnown(vapourPressure(air), (vapour) =>
    settlesAt(vapour, logOverWater, { low: overWater.least, high: air.temperature }),
  );
}

/**
 * The temperature of a surface below which water settles on it, as dew above 0.01 °C and as frost (e_s over ice) below:
 * what decides whether glass is wet. In air that is saturated below 0 °C frost settles on surfaces a little warmer than
 * the air.
 */
export function wetBelow(air: Air): Answer<Kelvin> {
  return whenKnown(dewPoint(air), (dew) => {
    if (dew >= triplePoint) return value(dew);
    return whenKnown(vapourPressure(air), (vapour) =>
      settlesAt(vapour, logOverIce, { low: overIce.least, high: overIce.most }),
    );
  });
}

function settlesAt(
  vapour: Pascal,
  logSaturation: (t: number) => number,
  interval: { readonly low: number; readonly high: number },
): Answer<Kelvin> {
  const found = crossing(logSaturation, Math.log(vapour), interval, precision);
  if (found.kind === 'at') return value(si(found.x, 'temperature'));
  if (found.kind === 'below') return value(si(interval.high, 'temperature'));
  return {
    kind: 'outside',
    of: 'vapour pressure',
    given: vapour,
    least: Math.exp(logSaturation(interval.low)),
    most: Number.MAX_VALUE,
  };
}

/**
 * Relative humidity of air where it touches glass: e/e_s at the glass, over ice below 0.01 °C. Above 1, water settles.
 */
export function humidityAtGlass(air: Air, glass: Kelvin): Answer<Ratio> {
  return whenKnown(vapourPressure(air), (vapour) =>
    whenKnown(saturationAt(glass), (saturated) => value(si(vapour / saturated, 'ratio'))),
  );
}

/** Whether water settles on glass, and as what. Glass exactly at the dew point is still dry. */
export function wetness(air: Air, glass: Kelvin): Answer<'dry' | 'dew' | 'frost'> {
  return whenKnown(humidityAtGlass(air, glass), (humidity) => {
    if (humidity <= 1) return value('dry');
    return value(glass < triplePoint ? 'frost' : 'dew');
  });
}

/**
 * The humidity of air above which water settles on glass of a temperature; outside where not even saturated air wets
 * it.
 */
export function humidityThatWets(airTemperature: Kelvin, glass: Kelvin): Answer<Ratio> {
  return whenKnown(saturationOverWater(airTemperature), (inAir) =>
    whenKnown(saturationAt(glass), (atGlass) => {
      const humidity = atGlass / inAir;
      return firstOutside({ of: 'humidity', given: humidity, least: 0, most: 1 }) ?? value(si(humidity, 'ratio'));
    }),
  );
}

function saturationAt(surface: Kelvin): Answer<Pascal> {
  return surface < triplePoint ? saturationOverIce(surface) : saturationOverWater(surface);
}
