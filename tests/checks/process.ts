import { checkSheets, type Finding } from '@quarrel/checks';
import { parseTest } from '@quarrel/language';
import type { Procedure } from '@quarrel/model';
import {
  celsius,
  degrees,
  type Leg,
  legTime,
  type Pascal,
  si,
  type ViscosityCurve,
  type ViscosityPoint,
  viscosityAt,
  viscosityCurve,
} from '@quarrel/process';
import { known } from '../references/published.js';
import { read } from './reading.js';

/** What a made-up sheet presses into what, in the units in which it is written. */
export interface Job {
  /** °C and mPa·s, from cold to warm. */
  readonly points: readonly (readonly [celsius: number, viscosity: number])[];
  /** mN/m */
  readonly surfaceTension: number;
  /** µm */
  readonly gap: number;
  /** mm */
  readonly length: number;
  /** kPa */
  readonly pressure: number;
  /** s */
  readonly hold: number;
}

/** From where to where the made-up thermometer reads, in °C. */
export const thermometer = { low: -60, high: 90 } as const;

/** A sheet that does the job with one hold and nothing else. */
export function sheetOf({ points, surfaceTension, gap, length, pressure, hold }: Job): string {
  const viscosity = points.map(([at, value]) => `${value} mPa·s at ${at} °C`).join(', ');
  return `reading glass-temperature: ${thermometer.low} °C to ${thermometer.high} °C
act press-resin
assume glass { temperature glass-temperature }
assume filling { during press-resin; gap ${gap} µm; length ${length} mm }
resin thin { viscosity ${viscosity}; surface-tension ${surfaceTension} mN/m }
injector small { pressure ${pressure} kPa }
procedure chip {
  step "Read" { read glass-temperature }
  step "Press" { do press-resin with small; with thin; hold ${hold} s }
}
`;
}

/** How the job's resin flows, straight from the physics. */
export function curveOf({ points }: Pick<Job, 'points'>): ViscosityCurve {
  return known(
    viscosityCurve(
      points.map(
        ([at, value]): ViscosityPoint => ({
          temperature: celsius(at),
          viscosity: si(value / 1000, 'viscosity'),
        }),
      ),
    ),
  );
}

/** How long the job's leg takes at a temperature in °C, straight from the physics; nothing where it does not tell. */
export function needOf(job: Omit<Job, 'hold'>, curve: ViscosityCurve, at: number): number | undefined {
  const viscosity = viscosityAt(curve, celsius(at));
  if (viscosity.kind !== 'value') return undefined;
  const leg: Leg = {
    gap: si(job.gap * 1e-6, 'length'),
    length: si(job.length / 1000, 'length'),
    contactAngle: degrees(0),
  };
  const push: Pascal = si(job.pressure * 1000, 'pressure');
  const surfaceTension = si(job.surfaceTension / 1000, 'surface-tension');
  const time = legTime(leg, { viscosity: viscosity.value, surfaceTension }, push);
  return time.kind === 'value' ? time.value : undefined;
}

/** The steps in which temperatures are scanned, in °C. */
export const grain = 0.01;

/** The warmest temperature of a scan at which something is so, in °C; nothing where it is so at none. */
export function warmestWhere(isSo: (celsius: number) => boolean): number | undefined {
  for (let at = Math.round(thermometer.high / grain); at >= thermometer.low / grain; at -= 1) {
    if (isSo(at * grain)) return at * grain;
  }
  return undefined;
}

/** Below which temperature a rule finds fault, in °C; the top of the thermometer where everywhere, nothing where nowhere. */
export async function foundBelow(text: string, rule: string): Promise<number | undefined> {
  const sheets = await read({ sheet: text });
  const procedure = sheets[0]?.procedures[0];
  const problems = sheets.flatMap((sheet) => sheet.problems);
  if (procedure === undefined || problems.length > 0) throw new Error(`${JSON.stringify(problems)}\n${text}`);
  const found = checkSheets(sheets).findings.filter((finding) => finding.rule === rule);
  if (found.length > 1) throw new Error(`${rule} is found ${found.length} times\n${text}`);
  return found[0] === undefined ? undefined : turnOf(found[0], procedure);
}

function turnOf({ situation }: Finding, { vocabulary }: Procedure): number {
  const { test, problems } = parseTest(situation?.region ?? '', vocabulary);
  if (problems.length > 0) throw new Error(`the language does not read ${situation?.region}`);
  if (test.kind === 'always') return thermometer.high;
  if (test.kind !== 'compare' || test.comparison !== 'below') throw new Error(`not a cold side: ${situation?.region}`);
  return test.quantity.si - 273.15;
}
