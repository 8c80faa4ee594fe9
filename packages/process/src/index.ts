// The whole face of the physics, by subject. Formulas, validity, assumptions and sources: docs/process.md.

// Air: water on the glass, and the vacuum that can be had
export {
  type Air,
  dewPoint,
  humidityAtGlass,
  humidityThatWets,
  saturationOverIce,
  saturationOverWater,
  triplePoint,
  vapourPressure,
  wetBelow,
  wetness,
} from './air.js';
// Numbers that know what they measure, and answers that know their validity
export type { Answer, Caveat, None, Outside, Reason, Value } from './answer.js';
export { whenKnown } from './answer.js';
export { type CalibratedGap, calibrateGap, studentT95, type TimedRepair } from './calibrate.js';
export {
  daylight,
  irradianceForOpenTime,
  type Known,
  type Light,
  type LightPath,
  type OpenTime,
  openTimeUnder,
  passedLight,
  type Standing,
} from './daylight.js';
// Light: cure, and resin that stands open
export {
  distanceFor,
  doseOver,
  irradianceAt,
  irradianceForDose,
  type Lamp,
  type Placing,
  positionsAlong,
  positionsOver,
  timeForDose,
} from './dose.js';
// Filling a break
export {
  type Cone,
  capillaryPull,
  coneRadius,
  coneTime,
  type Gap,
  gapToFill,
  type Leg,
  type Liquid,
  legLength,
  legTime,
  pushOf,
  slotSpeed,
  temperatureToFill,
  viscosityToFill,
} from './fill.js';
// Glass: stress from warming and cooling
export {
  changeInTime,
  differenceAtPace,
  differenceForStress,
  diffusivity,
  type Held,
  lagOf,
  type Pane,
  paceFor,
  sodaLime,
  thermalStress,
  timeToChange,
  toleratedByWholeGlass,
  usualPane,
} from './glass.js';
export {
  type CubicMetre,
  celsius,
  degrees,
  differenceOf,
  type JoulePerSquareMetre,
  type Kelvin,
  type KelvinDifference,
  type KelvinPerSecond,
  type Measure,
  type Metre,
  type NewtonPerMetre,
  type Pascal,
  type PascalSecond,
  type Radian,
  type Ratio,
  type Second,
  type Si,
  si,
  siOf,
  type WattPerSquareMetre,
} from './si.js';
// Where a monotone function takes a value
export { type Crossing, crossing } from './solve.js';
export {
  airLeft,
  altitudeOfPressure,
  pressureAtAltitude,
  pressureLeft,
  type Vacuum,
  vacuumDrawn,
  volumeAt,
  weatherSwing,
} from './vacuum.js';
// Resin
export {
  margins,
  rangeOf,
  temperatureAt,
  type ViscosityCurve,
  type ViscosityPoint,
  viscosityAt,
  viscosityCurve,
} from './viscosity.js';
