import { type Dimension, type Span, stepsOf, type Unit, units } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { first, procedureOf, readOne, said } from './reading.js';

/** A span as it stands behind `hold`. */
async function holdOf(text: string): Promise<Span | undefined> {
  return first(stepsOf(await procedureOf(`procedure p { step "Wait" { hold ${text} } }`))).hold;
}

describe('spans', () => {
  test.each([
    ['15 s', '15 s', 15, '15 s', 15],
    ['15s', '15 s', 15, '15 s', 15],
    ['15 s to 30 s', '15 s', 15, '30 s', 30],
    ['15 to 30 s', '15 s', 15, '30 s', 30],
    ['30 s to 1 min', '30 s', 30, '1 min', 60],
    ['1 min 30 s', '1 min 30 s', 90, '1 min 30 s', 90],
    ['1 h   2 min 3.5 s', '1 h 2 min 3.5 s', 3723.5, '1 h 2 min 3.5 s', 3723.5],
    ['1 min 30 s to 2 min', '1 min 30 s', 90, '2 min', 120],
    ['from 1 min to 2 min', '1 min', 60, '2 min', 120],
    ['at least 2 min', '2 min', 120, undefined, undefined],
    ['at most 2 min', undefined, undefined, '2 min', 120],
  ])('%s', async (text, least, leastSi, most, mostSi) => {
    const span = await holdOf(text);
    expect([span?.least?.text, span?.least?.si, span?.most?.text, span?.most?.si]).toEqual([
      least,
      leastSi,
      most,
      mostSi,
    ]);
  });

  test('a unit stands on the line of its number', async () => {
    const sheet = await readOne('act s\nprocedure p {\n  step "Wait" {\n    hold 15\n    do s\n  }\n}');
    expect(sheet.problems.map(said)).toEqual(['4:10 unit-missing: 15 of a hold: time']);
    expect(first(sheet.procedures).body).toMatchObject([{ effects: [{ kind: 'act', act: 's' }] }]);
  });

  test.each([
    ['60', '1:36 unit-missing: 60 of a hold: time'],
    ['10 to 20', '1:42 unit-missing: 20 of a hold: time'],
    ['1 min 30', '1:42 unit-missing: 30 of a hold: time'],
    ['60 sec', '1:39 unknown-unit: sec -> s'],
    ['60 secs to 90 s', '1:39 unknown-unit: secs -> s'],
    ['60 mni', '1:39 unknown-unit: mni -> min'],
    ['60 fortnight', '1:39 unknown-unit: fortnight -> '],
    ['60 mm', '1:36 wrong-dimension: 60 mm is length, a hold is time'],
    ['10 °C to 20 °C', '1:36 wrong-dimension: 10 °C is temperature, a hold is time'],
    ['1 min 30 mm', '1:42 wrong-dimension: 30 mm is length, a hold is time'],
  ])('%s lowers to nothing', async (text, problem) => {
    const sheet = await readOne(`procedure p { step "Wait" { hold   ${text} } }`);
    expect(sheet.problems.map(said)).toEqual([problem]);
    expect(sheet.procedures[0]?.body[0]).not.toHaveProperty('hold');
  });
});

/** Where in a sheet a quantity of a dimension may stand. */
const places: Readonly<Record<Dimension, (quantity: string) => string>> = {
  temperature: (quantity) => `resin r { works from ${quantity} to ${quantity} }`,
  length: (quantity) => `lamp l { spot ${quantity} }`,
  time: (quantity) => `resin r { open-time ${quantity} under 1 mW/cm² }`,
  pressure: (quantity) => `injector i { pressure ${quantity} }`,
  viscosity: (quantity) => `resin r { viscosity ${quantity} at 20 °C }`,
  irradiance: (quantity) => `lamp l { irradiance ${quantity} at 30 mm }`,
  dose: (quantity) => `resin r { cure-dose ${quantity} at 365 nm }`,
  'surface-tension': (quantity) => `resin r { surface-tension ${quantity} }`,
  ratio: (quantity) => `injector i { vacuum ${quantity} }`,
  volume: (quantity) => `resin r procedure p { step "x" { with r amount ${quantity} } }`,
  drops: (quantity) => `resin r procedure p { step "x" { with r amount ${quantity} } }`,
  pieces: (quantity) => `resin r procedure p { step "x" { with r amount ${quantity} } }`,
};

describe('units', () => {
  const spelled = units.flatMap((unit) =>
    [unit.name, ...(unit.spellings ?? [])].map((name): [string, Unit] => [name, unit]),
  );

  test.each(spelled)('%s is read where its dimension fits', async (name, unit) => {
    const spaced = await readOne(places[unit.dimension](`20 ${name}`));
    const touching = await readOne(places[unit.dimension](`20${name}`));
    expect([...spaced.problems, ...touching.problems].map(said)).toEqual([]);
  });

  test.each(spelled)('%s is refused where a hold is said', async (name, unit) => {
    const sheet = await readOne(`procedure p { step "x" { hold 20 ${name} } }`);
    expect(sheet.problems.map(({ rule }) => rule)).toEqual(unit.dimension === 'time' ? [] : ['wrong-dimension']);
  });

  test('one value written in two units is one value', async () => {
    const procedure = await procedureOf(`
reading t: 41 °F to 95 °F
reading l: 1 inch to 2 inches
procedure p { covers { t at least 5 °C; t at most 35 °C; l at least 25.4 mm } step "x" { read t; read l } }`);
    const [t, l] = procedure.vocabulary.readings;
    const [low, high, long] = procedure.covers.map((one) => (one.kind === 'compare' ? one.quantity.si : undefined));
    expect([t?.low.si, t?.high.si, l?.low.si]).toEqual([low, high, long]);
  });
});

describe('lines of a datasheet', () => {
  test.each([
    ['resin r { viscosty 35 mPa·s at 20 °C }', '1:11 unknown-name: property of a resin viscosty -> viscosity'],
    ['tool t { vacuum 85 % }', '1:10 unknown-name: property of a tool vacuum -> '],
    ['injector i { vacuum 85 %; vacuum 80 % }', '1:27 name-clash: property vacuum <- main.quarrel:1'],
    [
      'resin r { viscosity 35 mPa·s }',
      '1:21 syntax: Write it like this: `viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C`.',
    ],
    ['lamp l { spot 60 mm at 20 mm }', '1:15 syntax: Write it like this: `spot 60 mm`.'],
    [
      'resin r { viscosity 35 mPa·s at 20 mm }',
      '1:33 wrong-dimension: 20 mm is length, what follows "at" is temperature',
    ],
  ])('%s', async (text, problem) => {
    expect((await readOne(text)).problems.map(said)).toEqual([problem]);
  });
});

describe('readings', () => {
  test.each([
    ['reading r: 0 to 150 mm', []],
    ['reading r: 10 mm to 0 mm', ['1:12 syntax: The low end of a reading comes first.']],
    ['reading r: 10 mm', ['1:12 syntax: A reading runs from one end to the other: `0 mm to 150 mm`.']],
    ['reading r: 10 mm to 20 °C', ['1:21 wrong-dimension: 20 °C is temperature, r is length']],
    ['reading r: 10 to 20', ['1:18 unit-missing: 20 of r: ']],
  ])('%s', async (text, problems) => {
    expect((await readOne(text)).problems.map(said)).toEqual(problems);
  });
});
