import { type Answer, firstOutside, none, value, whenKnown } from './answer.js';
import {
  type Kelvin,
  type Metre,
  type NewtonPerMetre,
  type Pascal,
  type PascalSecond,
  type Radian,
  type Second,
  si,
} from './si.js';
import { crossing } from './solve.js';
import { temperatureAt, type ViscosityCurve } from './viscosity.js';

/** The gap between the two faces of a break, taken for two parallel plates. */
export interface Gap {
  /** Between the plates. The strongest assumption there is here: it enters squared. */
  readonly gap: Metre;
  /** Between resin and glass: 0 wets fully, more than 90° is pushed out. */
  readonly contactAngle: Radian;
}

/** A leg or a crack: resin comes in at one end and has `length` to go. */
export interface Leg extends Gap {
  readonly length: Metre;
}

/** A cone: resin comes in round the impact point and runs outward. */
export interface Cone extends Gap {
  /** Radius of the impact point. */
  readonly inner: Metre;
  /** Radius of the cone, more than `inner`. */
  readonly outer: Metre;
}

export interface Liquid {
  /** At the temperature of the glass. */
  readonly viscosity: PascalSecond;
  /** 0 counts no capillary pull, which makes a fill slower than it is as long as the resin wets. */
  readonly surfaceTension: NewtonPerMetre;
}

/**
 * The pressure difference that pushes resin into a break: the injector's pressure above ambient, and the vacuum (below
 * ambient) that was drawn in the break before. A vacuum beyond ambient pressure cannot be had and counts as ambient.
 * Each at least 0.
 */
export function pushOf(applied: Pascal, vacuum: Pascal, ambient: Pascal): Pascal {
  return si(applied + Math.min(vacuum, ambient), 'pressure');
}

/**
 * The pull of a gap on a liquid that wets it: p = 2γ·cos θ/h, in Pa; negative beyond 90°. Young and Laplace, for two
 * parallel plates; any text on capillarity, from memory.
 */
export function capillaryPull(gap: Gap, surfaceTension: NewtonPerMetre): Pascal {
  return si((2 * surfaceTension * Math.cos(gap.contactAngle)) / gap.gap, 'pressure');
}

/** The mean speed of slow flow between plates: v = h²/(12μ)·Δp/L, in m/s, for a pressure drop per metre in Pa/m. */
export function slotSpeed(gap: Metre, viscosity: PascalSecond, dropPerMetre: number): number {
  return (gap ** 2 / (12 * viscosity)) * dropPerMetre;
}

/**
 * How long resin needs to the end of a leg: t = 6μL²/(h²·(Δp + 2γ·cos θ/h)).
 *
 * Plane Poiseuille flow behind a moving front (Washburn 1921, Phys. Rev. 17:273, for tubes; the form for slots as in
 * the literature on filling narrow gaps under electronic chips). Assumes parallel plates, constant pressure, a
 * Newtonian liquid, no inertia (ρh²/12μ is less than a microsecond here), and that the air in front is gone or gives way. Never
 * fills where the capillary force holds out against the pressure.
 */
export function legTime(leg: Leg, liquid: Liquid, push: Pascal): Answer<Second> {
  const outside = firstOutside({ of: 'length', given: leg.length, ...sizes.length });
  if (outside !== undefined) return outside;
  return whenKnown(mobility(leg, liquid, push), (mobility) => value(si(leg.length ** 2 / (2 * mobility), 'time')));
}

/** How far resin comes into a gap in a time: L = √(t·h²·(Δp + 2γ·cos θ/h)/(6μ)), the inverse of `legTime`. */
export function legLength(gap: Gap, liquid: Liquid, push: Pascal, time: Second): Answer<Metre> {
  const outside = firstOutside({ of: 'time', given: time, least: 0 });
  if (outside !== undefined) return outside;
  return whenKnown(mobility(gap, liquid, push), (mobility) => value(si(Math.sqrt(2 * mobility * time), 'length')));
}

/**
 * How long resin needs to the rim of a cone: t = (6μ/(h²·Δp))·(R²·ln(R/r) − (R² − r²)/2), with the capillary pull added
 * to Δp. Radial flow between parallel discs (lubrication theory, any text on viscous flow, from memory); assumptions as
 * for `legTime`.
 */
export function coneTime(cone: Cone, liquid: Liquid, push: Pascal): Answer<Second> {
  const outside = firstOutside(
    { of: 'inner radius', given: cone.inner, ...sizes.length },
    { of: 'outer radius', given: cone.outer, least: cone.inner, most: sizes.length.most },
  );
  if (outside !== undefined) return outside;
  return whenKnown(mobility(cone, liquid, push), (mobility) =>
    value(si(coneArea(cone.inner, cone.outer) / mobility, 'time')),
  );
}

/** R²·ln(R/r)/2 − (R² − r²)/4: takes the place of L²/2, and comes near it where the ring is narrow. */
function coneArea(inner: number, outer: number): number {
  return (outer ** 2 * Math.log(outer / inner)) / 2 - (outer ** 2 - inner ** 2) / 4;
}

/** How far from the middle resin is in a cone after a time; found to 0.1 µm, as the formula cannot be turned round. */
export function coneRadius(gap: Gap, inner: Metre, liquid: Liquid, push: Pascal, time: Second): Answer<Metre> {
  const outside = firstOutside(
    { of: 'time', given: time, least: 0 },
    { of: 'inner radius', given: inner, ...sizes.length },
  );
  if (outside !== undefined) return outside;
  return whenKnown(mobility(gap, liquid, push), (mobility) => {
    const interval = { low: inner, high: sizes.length.most };
    const radius = crossing((outer) => coneArea(inner, outer), mobility * time, interval, 1e-7);
    if (radius.kind === 'at') return value(si(radius.x, 'length'));
    return { kind: 'outside', of: 'time', given: time, least: 0, most: coneArea(inner, interval.high) / mobility };
  });
}

/** The viscosity at which a leg fills in exactly this time; a thinner resin is faster. */
export function viscosityToFill(
  leg: Leg,
  surfaceTension: NewtonPerMetre,
  push: Pascal,
  time: Second,
): Answer<PascalSecond> {
  const outside = firstOutside({ of: 'time', given: time, least: 0 });
  if (outside !== undefined) return outside;
  const unit: Liquid = { viscosity: si(1, 'viscosity'), surfaceTension };
  return whenKnown(legTime(leg, unit, push), (perViscosity) => value(si(time / perViscosity, 'viscosity')));
}

/**
 * The temperature of the glass at which a leg fills in exactly the time of a hold: colder, the hold is too short.
 * Closed form: the viscosity that fills in time, then the temperature at which the resin has it.
 */
export function temperatureToFill(
  leg: Leg,
  resin: { readonly curve: ViscosityCurve; readonly surfaceTension: NewtonPerMetre },
  push: Pascal,
  hold: Second,
): Answer<Kelvin> {
  return whenKnown(viscosityToFill(leg, resin.surfaceTension, push, hold), (viscosity) =>
    temperatureAt(resin.curve, viscosity),
  );
}

/**
 * The gap at which a leg fills in exactly this time; a wider one is faster. The positive root of h²·Δp + 2γ·cos θ·h =
 * 6μL²/t.
 */
export function gapToFill(leg: Omit<Leg, 'gap'>, liquid: Liquid, push: Pascal, time: Second): Answer<Metre> {
  const outside = firstOutside(
    ...limitsOf(leg.contactAngle, liquid, push),
    { of: 'length', given: leg.length, ...sizes.length },
    { of: 'time', given: time, least: 1e-3 },
  );
  if (outside !== undefined) return outside;
  const half = liquid.surfaceTension * Math.cos(leg.contactAngle);
  const product = (6 * liquid.viscosity * leg.length ** 2) / time;
  const root = Math.sqrt(half ** 2 + push * product);
  if (half + root <= 0) return none('never-fills');
  return value(si(half < 0 ? (root - half) / push : product / (half + root), 'length'));
}

/** h²·(Δp + p)/(12μ): the front runs at this divided by the way it has come, in m²/s. */
function mobility(gap: Gap, liquid: Liquid, push: Pascal): Answer<number> {
  const outside = firstOutside(
    { of: 'gap', given: gap.gap, ...sizes.gap },
    ...limitsOf(gap.contactAngle, liquid, push),
  );
  if (outside !== undefined) return outside;
  const drive = push + capillaryPull(gap, liquid.surfaceTension);
  return drive > cancelled * push ? value(slotSpeed(gap.gap, liquid.viscosity, drive)) : none('never-fills');
}

/** Pressure and capillary push that differ by less than this share cancel: what is left is rounding. */
const cancelled = 1e-9;

/** Sizes in m for which the formulas of slow flow between plates are meant. */
const sizes = { gap: { least: 1e-8, most: 1e-3 }, length: { least: 1e-5, most: 10 } } as const;

function limitsOf(contactAngle: Radian, liquid: Liquid, push: Pascal) {
  return [
    { of: 'contact angle', given: contactAngle, least: 0, most: Math.PI },
    { of: 'viscosity', given: liquid.viscosity, least: 1e-9, most: 1e18 },
    { of: 'surface tension', given: liquid.surfaceTension, least: 0, most: 1 },
    { of: 'pressure', given: push, least: 0, most: 1e9 },
  ] as const;
}
