import { checkSheets, type Finding, silencesOf } from '@quarrel/checks';
import { parseTest } from '@quarrel/language';
import { type Procedure, type Quantity, type Sheet, stepsOf, type Test, type Thing } from '@quarrel/model';
import {
  degrees,
  differenceOf,
  irradianceAt,
  lagOf,
  legTime,
  openTimeUnder,
  pressureAtAltitude,
  si,
  timeForDose,
  timeToChange,
  usualPane,
  viscosityAt,
  viscosityCurve,
  wetness,
  whenKnown,
} from '@quarrel/process';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { seed } from '../analysis/judge/seed.js';
import { logarithmic } from '../process/arbitrary.js';
import { read } from './reading.js';

/** Every estimate has something to say of it, and every figure in it comes up once. */
const text = `reading glass-temperature: -40 °C to 80 °C
act warm
act load
act press
act cure
assume glass { temperature glass-temperature }
assume filling { during press; gap 3 µm; length 20 mm }
assume curing { during cure; distance 60 mm; output 80 %; passed 70 % }
assume opening { during load; irradiance 2 mW/cm² }
assume warming { during warm; change 30 K; allowed 10 K }
assume air { temperature 20 °C; humidity 60 %; altitude 2000 m }
resin thin {
  viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C, 200 mPa·s at -5 °C
  surface-tension 33 mN/m
  cure-dose 1.2 J/cm² at 365 nm
  works from 5 °C to 32 °C
  open-time 4 min under 1 mW/cm²
}
lamp bench { irradiance 25 mW/cm² at 30 mm; wavelength 365 nm }
injector small { pressure 200 kPa; vacuum 85 kPa }
procedure chip {
  step "Read" { read glass-temperature }
  step "Warm" { do warm; hold 20 s }
  step "Load" { do load; with thin; takes 1 min; hold 2 min }
  step "Press" { do press with small; hold 1 min }
  step "Cure" { do cure with bench; hold 1 min 5 s }
}
`;

const [base] = await read({ sheet: text });
if (base === undefined || base.problems.length > 0) throw new Error(JSON.stringify(base?.problems));

/** Where figures stand that no author would write, and some that one would. */
const figures = fc.oneof(
  fc.constantFrom(
    0,
    -1,
    1,
    1e-300,
    5e-324,
    1e300,
    Number.MAX_VALUE,
    -1e300,
    1e-9,
    1e15,
    Infinity,
    -Infinity,
    Number.NaN,
  ),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  logarithmic(1e-12, 1e12),
);
/** By place: a factor near 1, which leaves estimates at work, or another figure. */
const changes = fc.dictionary(
  fc.nat({ max: 40 }).map(String),
  fc.oneof(
    { weight: 3, arbitrary: fc.record({ by: logarithmic(0.3, 3) }) },
    { weight: 1, arbitrary: fc.record({ to: figures }) },
  ),
  { maxKeys: 6 },
);
type Change = { readonly by: number } | { readonly to: number };

/** The sheet with other figures on its datasheets, in what it assumes and in its holds; conditions stay as they are. */
function changed(sheet: Sheet, by: Readonly<Record<string, Change>>): Sheet {
  const copy = structuredClone(sheet);
  const figures = copy.procedures.flatMap(({ vocabulary: { things, assumptions }, body }) => [
    ...quantitiesIn([things, assumptions, body]),
  ]);
  // Both ends of an exact span are one figure.
  for (const [place, quantity] of [...new Set(figures)].entries()) {
    const change = by[place];
    if (change === undefined) continue;
    const value = 'by' in change ? quantity.si * change.by : change.to;
    Object.assign(quantity, { si: value, text: `${value} SI` });
  }
  return copy;
}

function* quantitiesIn(part: unknown): Iterable<Quantity> {
  if (typeof part !== 'object' || part === null) return;
  if (isQuantity(part)) yield part;
  else for (const inner of Object.values(part)) yield* quantitiesIn(inner);
}

function isQuantity(part: object): part is Quantity {
  return 'si' in part && 'dimension' in part;
}

/** Whether the physics, asked directly, finds what the finding says to be wrong at a glass temperature, in K. */
function isWrong({ rule, message, step: id }: Finding, procedure: Procedure, kelvin: number): boolean {
  const { assumptions, things } = procedure.vocabulary;
  const assumed = (topic: string, property: string): number => {
    const line = assumptions.find((one) => one.topic === topic)?.lines.find((one) => one.property === property);
    return figure(line?.amount.kind === 'value' ? line.amount.span.least : undefined).si;
  };
  const quantity = (topic: string, property: string): Quantity => {
    const line = assumptions.find((one) => one.topic === topic)?.lines.find((one) => one.property === property);
    return figure(line?.amount.kind === 'value' ? line.amount.span.least : undefined);
  };
  const on = (kind: Thing['kind'], property: string) =>
    things.find((one) => one.kind === kind)?.properties.find(({ name }) => name === property)?.entries ?? [];
  const first = (kind: Thing['kind'], property: string): { readonly value: number; readonly at: number } => {
    const [entry] = on(kind, property);
    return { value: figure(entry?.value.least).si, at: entry?.at?.si ?? Number.NaN };
  };
  const step = stepsOf(procedure).find((one) => one.id === id);
  const hold = step?.hold?.least?.si ?? 0;
  switch (rule) {
    case 'outside-working-range': {
      const works = on('resin', 'works')[0]?.value;
      return kelvin < figure(works?.least).si || kelvin > figure(works?.most).si;
    }
    case 'hold-shorter-than-fill': {
      const points = on('resin', 'viscosity').map(({ value, at }) => ({
        temperature: si(figure(at).si, 'temperature'),
        viscosity: si(figure(value.least).si, 'viscosity'),
      }));
      const leg = {
        gap: si(assumed('filling', 'gap'), 'length'),
        length: si(assumed('filling', 'length'), 'length'),
        contactAngle: degrees(0),
      };
      const surfaceTension = si(first('resin', 'surface-tension').value, 'surface-tension');
      const time = whenKnown(viscosityCurve(points), (curve) =>
        whenKnown(viscosityAt(curve, si(kelvin, 'temperature')), (viscosity) =>
          legTime(leg, { viscosity, surfaceTension }, si(first('injector', 'pressure').value, 'pressure')),
        ),
      );
      // Colder than the datasheet tells the resin is thicker still.
      return time.kind === 'value' ? time.value > hold : time.kind === 'outside' && time.of === 'temperature';
    }
    case 'underdosed-cure': {
      const dose = first('resin', 'cure-dose');
      const lamp = first('lamp', 'irradiance');
      const irradiance = irradianceAt(
        { irradiance: si(lamp.value, 'irradiance'), distance: si(lamp.at, 'length') },
        {
          distance: si(assumed('curing', 'distance'), 'length'),
          angle: degrees(0),
          output: si(assumed('curing', 'output'), 'ratio'),
          passed: si(assumed('curing', 'passed'), 'ratio'),
        },
      );
      const time = whenKnown(irradiance, (known) => timeForDose(si(dose.value, 'dose'), known));
      return time.kind === 'value' && time.value > hold;
    }
    case 'open-too-long': {
      const open = first('resin', 'open-time');
      const time = openTimeUnder(
        { time: si(open.value, 'time'), under: si(open.at, 'irradiance') },
        si(assumed('opening', 'irradiance'), 'irradiance'),
      );
      const load = stepsOf(procedure)[2];
      const passed = figure(load?.takes?.most).si + figure(load?.hold?.most).si;
      return time.kind === 'value' && passed > time.value;
    }
    case 'wet-glass': {
      const air = {
        temperature: si(assumed('air', 'temperature'), 'temperature'),
        humidity: si(assumed('air', 'humidity'), 'ratio'),
      };
      const wet = wetness(air, si(kelvin, 'temperature'));
      return wet.kind === 'value' && wet.value !== 'dry';
    }
    case 'heated-too-fast': {
      const time = whenKnown(differenceOf(quantity('warming', 'change')), (change) =>
        whenKnown(differenceOf(quantity('warming', 'allowed')), (allowed) =>
          whenKnown(lagOf(usualPane), (lag) => timeToChange(change, allowed, lag)),
        ),
      );
      if (time.kind !== 'value') return false;
      return message.includes('one part') ? time.caveats.includes('only-as-a-whole') : time.value > hold;
    }
    case 'vacuum-out-of-reach': {
      const ambient = pressureAtAltitude(si(assumed('air', 'altitude'), 'length'));
      return ambient.kind === 'value' && first('injector', 'vacuum').value > ambient.value;
    }
    default:
      return true;
  }
}

function figure(quantity: Quantity | undefined): Quantity {
  if (quantity === undefined) throw new Error('the sheet has a figure there');
  return quantity;
}

const process = [
  'outside-working-range',
  'hold-shorter-than-fill',
  'underdosed-cure',
  'open-too-long',
  'wet-glass',
  'heated-too-fast',
  'vacuum-out-of-reach',
];

/** Whether a region of the glass temperature holds a value; the sheet has no other condition. */
function holds(test: Test, kelvin: number): boolean {
  switch (test.kind) {
    case 'always':
      return true;
    case 'compare': {
      const { comparison, quantity } = test;
      return comparison === 'below' ? kelvin < quantity.si : comparison === 'above' && kelvin > quantity.si;
    }
    case 'or':
      return test.tests.some((one) => holds(one, kelvin));
    case 'and':
      return test.tests.every((one) => holds(one, kelvin));
    default:
      throw new Error(`a region of another kind: ${test.kind}`);
  }
}

test('no figure makes an estimate throw, and none is reported where the physics says that it suffices', {
  timeout: 100_000,
}, () => {
  const found = new Map<string, number>();
  fc.assert(
    fc.property(changes, (by) => {
      const sheet = changed(base, by);
      const [procedure] = sheet.procedures;
      if (procedure === undefined) return;
      expect(() => silencesOf(procedure)).not.toThrow();
      for (const finding of checkSheets([sheet]).findings) {
        if (!process.includes(finding.rule)) continue;
        found.set(finding.rule, (found.get(finding.rule) ?? 0) + 1);
        expect(finding.mends).toBeDefined();
        const region = parseTest(finding.situation?.region ?? '', procedure.vocabulary);
        // A figure in no unit of the language is not read back; all that is there is scanned then.
        if (region.problems.length > 0) continue;
        for (let at = -40; at <= 80; at += 0.5) {
          const kelvin = at + 273.15;
          if (!holds(region.test, kelvin)) continue;
          expect(isWrong(finding, procedure, kelvin), `${finding.message} — at ${at} °C`).toBe(true);
        }
      }
    }),
    { numRuns: 300, ...seed() },
  );
  for (const rule of process) expect(found.get(rule) ?? 0, rule).toBeGreaterThan(10);
});
