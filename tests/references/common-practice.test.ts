import { readFileSync } from 'node:fs';
import type { Assumptions, Dimension, Property, Test, Thing } from '@quarrel/model';
import {
  celsius,
  coneTime,
  degrees,
  type Gap,
  type Liquid,
  lagOf,
  legTime,
  type Pascal,
  pressureAtAltitude,
  pushOf,
  si,
  siOf,
  timeForDose,
  timeToChange,
  toleratedByWholeGlass,
  usualPane,
  vacuumDrawn,
  viscosityAt,
  viscosityCurve,
} from '@quarrel/process';
import { beforeAll, describe, expect, test } from 'vitest';
import { first, readShop } from '../language/reading.js';
import { known } from './published.js';

/*
  The habits of the trade have no source. They are held against our estimates for order of magnitude and no closer: a factor of √10
  beyond either end of the habit still counts as the same. What is estimated from is what ships (the assumptions of the trade sheet)
  and the invented school's products. Neither is bent to fit: where estimate and habit part, docs/sources.md says so.
*/

const equipment = readFileSync(new URL('../../examples/school/equipment.quarrel', import.meta.url), 'utf8');

let assumptions: readonly Assumptions[] = [];
let things: readonly Thing[] = [];

beforeAll(async () => {
  const text = `use "quarrel:laminated-glass"\n${equipment}\nprocedure p { step "Look" { takes 1 s } }`;
  const [sheet] = (await readShop({ 'main.quarrel': text }, {})).sheets;
  const procedure = first(sheet?.procedures ?? []);
  ({ assumptions, things } = procedure.vocabulary);
});

describe('habits of the trade (common practice, no source)', () => {
  test.each([
    ['second press on a star at 20 °C, thin resin', 60, 120, () => leg('star', 'thin', 20)],
    ['second press on a star at 10 °C, thin resin', 60, 120, () => leg('star', 'thin', 10)],
    ['second press on a star at 5 °C, thin resin', 60, 120, () => leg('star', 'thin', 5)],
    ['second press on a combination at 20 °C, medium resin', 60, 120, () => leg('combination', 'medium', 20)],
    ['first press on a bullseye at 20 °C, medium resin', 15, 30, () => cone('bullseye', 'medium', 20)],
    ['first press on a half-moon at 20 °C, medium resin', 15, 30, () => cone('half-moon', 'medium', 20)],
    ['cure, thin resin under the bench lamp', 60, 60, () => cure('thin', 1)],
    ['cure through a whole outer ply that passes 70 %', 60, 60, () => cure('thin', 0.7)],
    ['cure of the pit', 60, 60, () => cure('pit-resin', 1)],
  ] as const)('%s: %d s to %d s is the same order of magnitude as the estimate', (_, least, most, estimate) => {
    const seconds = estimate();
    expect(seconds).toBeGreaterThan(least / Math.sqrt(10));
    expect(seconds).toBeLessThan(most * Math.sqrt(10));
  });

  test('second press on a star, with the vacuum counted as pressure: the estimate is less than a third of the habit', () => {
    const seconds = leg('star', 'thin', 20, vacuum());
    expect(seconds).toBeGreaterThan(60 / 5);
    expect(seconds).toBeLessThan(60 / 3);
  });

  test('warming: the habit of 5 min is far longer than what the way through the pane asks for', () => {
    const change = si(15, 'temperature-difference');
    const least = known(timeToChange(change, toleratedByWholeGlass, known(lagOf(usualPane))));
    expect(300 / least).toBeGreaterThan(10);
  });
});

/** The assumed gap at a break; every resin is taken to wet clean glass. */
function gapOf(shape: string): Gap {
  return { gap: assumed(shape, 'gap'), contactAngle: degrees(0) };
}

function lengthOf(shape: string) {
  return assumed(shape, 'length');
}

/** What the trade sheet assumes of filling: the last line that holds. */
function assumed(shape: string, property: string) {
  const lines = assumptions.filter(({ topic }) => topic === 'filling').flatMap((block) => block.lines);
  const line = lines.findLast((each) => each.property === property && isOf(shape, each.when));
  if (line?.amount.kind !== 'value' || line.amount.span.least === undefined) throw new Error(`no ${property}`);
  return known(siOf(line.amount.span.least, 'length'));
}

function isOf(shape: string, when: Test | undefined): boolean {
  return when === undefined || (when.kind === 'is' && when.values.includes(shape) !== when.negated);
}

function property(thing: string, name: string): Property {
  return first(
    things
      .filter((each) => each.name === thing)
      .flatMap(({ properties }) => properties.filter((each) => each.name === name)),
  );
}

function datum<D extends Dimension>(thing: string, name: string, dimension: D) {
  const { least } = first(property(thing, name).entries).value;
  if (least === undefined) throw new Error(`${thing} has no ${name}`);
  return known(siOf(least, dimension));
}

function liquid(resin: string, temperature: number): Liquid {
  const points = property(resin, 'viscosity').entries.map(({ value, at }) => {
    if (value.least === undefined || at === undefined) throw new Error(`${resin} lacks a point`);
    return { temperature: known(siOf(at, 'temperature')), viscosity: known(siOf(value.least, 'viscosity')) };
  });
  return {
    viscosity: known(viscosityAt(known(viscosityCurve(points)), celsius(temperature))),
    surfaceTension: datum(resin, 'surface-tension', 'surface-tension'),
  };
}

const ambient = known(pressureAtAltitude(si(0, 'length')));

/** What the injector draws at sea level. */
function vacuum(): Pascal {
  return known(vacuumDrawn({ kind: 'share', of: datum('small', 'vacuum', 'ratio') }, ambient));
}

function push(drawn: Pascal): Pascal {
  return pushOf(datum('small', 'pressure', 'pressure'), drawn, ambient);
}

function leg(shape: string, resin: string, temperature: number, drawn = si(0, 'pressure')): number {
  const of = { ...gapOf(shape), length: lengthOf(shape) };
  return known(legTime(of, liquid(resin, temperature), push(drawn)));
}

function cone(shape: string, resin: string, temperature: number): number {
  const of = { ...gapOf(shape), inner: si(1e-3, 'length'), outer: lengthOf(shape) };
  return known(coneTime(of, liquid(resin, temperature), push(si(0, 'pressure'))));
}

function cure(resin: string, passed: number): number {
  const irradiance = si(datum('bench', 'irradiance', 'irradiance') * passed, 'irradiance');
  return known(timeForDose(datum(resin, 'cure-dose', 'dose'), irradiance));
}
