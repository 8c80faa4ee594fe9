import type { PropertyEntry, Quantity, Span, Thing } from '@quarrel/model';
import {
  type Answer,
  type JoulePerSquareMetre,
  type Lamp,
  type NewtonPerMetre,
  type OpenTime,
  si,
  siOf,
  type ViscosityCurve,
  type ViscosityPoint,
  viscosityCurve,
} from '@quarrel/process';

/** The lines of a property of a datasheet; none where it is missing. */
function entriesOf(thing: Thing, property: string): readonly PropertyEntry[] {
  return thing.properties.find(({ name }) => name === property)?.entries ?? [];
}

/** One value; the middle of a span. */
function middle({ least, most }: Span): number | undefined {
  return least === undefined || most === undefined ? (least ?? most)?.si : (least.si + most.si) / 2;
}

const curves = new WeakMap<Thing, Answer<ViscosityCurve>>();

/** How a resin's viscosity falls with temperature; nothing where its datasheet has no line `viscosity`. */
export function curveOf(resin: Thing): Answer<ViscosityCurve> | undefined {
  const points = entriesOf(resin, 'viscosity').flatMap(({ value, at }): ViscosityPoint[] => {
    const viscosity = middle(value);
    return viscosity === undefined || at === undefined
      ? []
      : [{ temperature: si(at.si, 'temperature'), viscosity: si(viscosity, 'viscosity') }];
  });
  if (points.length === 0) return undefined;
  const known = curves.get(resin);
  if (known !== undefined) return known;
  const curve = viscosityCurve(points);
  curves.set(resin, curve);
  return curve;
}

/** 0 where the datasheet does not say: no capillary pull is counted then, which makes a fill slower than it is. */
export function surfaceTensionOf(resin: Thing): NewtonPerMetre {
  const [entry] = entriesOf(resin, 'surface-tension');
  return si(entry === undefined ? 0 : (middle(entry.value) ?? 0), 'surface-tension');
}

/** The dose a resin asks for, and the wavelength it is for. */
export function cureDoseOf(resin: Thing): { readonly dose: JoulePerSquareMetre; readonly at: Quantity } | undefined {
  const [entry] = entriesOf(resin, 'cure-dose');
  const dose = entry?.value.most ?? entry?.value.least;
  return dose === undefined || entry?.at === undefined ? undefined : { dose: si(dose.si, 'dose'), at: entry.at };
}

/** The temperatures a resin works at. */
export function worksOf(resin: Thing): Span | undefined {
  return entriesOf(resin, 'works')[0]?.value;
}

/** How long a resin may stand open, and under what light. */
export function openTimeOf(resin: Thing): OpenTime | undefined {
  const [entry] = entriesOf(resin, 'open-time');
  const time = entry?.value.least ?? entry?.value.most;
  if (time === undefined || entry?.at === undefined) return undefined;
  return { time: si(time.si, 'time'), under: si(entry.at.si, 'irradiance') };
}

/** What a lamp gives, and at which wavelength where it says. */
export function lampOf(thing: Thing): { readonly lamp: Lamp; readonly wavelength?: Quantity } | undefined {
  const [entry] = entriesOf(thing, 'irradiance');
  const irradiance = entry?.value.least ?? entry?.value.most;
  if (irradiance === undefined || entry?.at === undefined) return undefined;
  const wavelength = entriesOf(thing, 'wavelength')[0]?.value.least;
  return {
    lamp: { irradiance: si(irradiance.si, 'irradiance'), distance: si(entry.at.si, 'length') },
    ...(wavelength === undefined ? {} : { wavelength }),
  };
}

/** The pressure that an injector presses with, above ambient. */
export function pressureOf(injector: Thing): Quantity | undefined {
  const [entry] = entriesOf(injector, 'pressure');
  return entry?.value.least ?? entry?.value.most;
}

/** The vacuum of an injector, where its datasheet gives it in pressure below ambient and not as a share. */
export function gaugeVacuumOf(injector: Thing): Quantity | undefined {
  const [entry] = entriesOf(injector, 'vacuum');
  const vacuum = entry?.value.most ?? entry?.value.least;
  return vacuum !== undefined && siOf(vacuum, 'pressure').kind === 'value' ? vacuum : undefined;
}
