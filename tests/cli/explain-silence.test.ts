import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { clean } from './sheets.js';
import { world } from './world.js';

const schema: object = JSON.parse(
  readFileSync(new URL('../../docs/schemas/findings.schema.json', import.meta.url), 'utf8'),
);
const validate = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true }).compile(schema);

const equipment = `resin thin "Thin resin" {
  surface-tension 33 mN/m
  works from 5 °C to 35 °C
}
injector small { pressure 200 kPa; vacuum 85 % }
`;

const chip = `use "equipment"
reading glass-temperature: -10 °C to 40 °C
act press-resin "Press resin in"
assume glass { temperature glass-temperature }
assume filling { during press-resin; gap 3 µm; length 20 mm }

procedure chip "Stone chip" {
  covers { glass-temperature from 5 °C to 35 °C }
  step "Read the glass temperature" { read glass-temperature }
  step "Press resin in" { do press-resin with small; with thin; hold 1 min }
}
`;

const viscosity = 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C';

/** What the command says of silent estimates in JSON, held against the schema. */
async function silences(texts: Readonly<Record<string, string>>, ...options: readonly string[]): Promise<unknown> {
  const { out } = await world(texts).quarrel('check', 'chip.quarrel', '--format', 'json', ...options);
  const document: { readonly silences?: readonly unknown[] } = JSON.parse(out);
  validate(document);
  expect(validate.errors ?? []).toEqual([]);
  return document.silences;
}

describe('--explain-silence', () => {
  test('gives every reason once, with the rules it keeps silent, the line that wakes them and where it belongs', async () => {
    expect(await silences({ 'chip.quarrel': chip, 'equipment.quarrel': equipment }, '--explain-silence')).toEqual([
      {
        procedure: 'chip',
        rules: ['hold-shorter-than-fill'],
        message: 'The datasheet of "thin" has no line "viscosity" that an estimate can use.',
        wakes: viscosity,
        file: 'equipment.quarrel',
        range: { start: { line: 1, column: 7 }, end: { line: 1, column: 11 } },
      },
      expect.objectContaining({ rules: ['underdosed-cure'], wakes: 'assume curing { during ACT }', file: null }),
      expect.objectContaining({ rules: ['underdosed-cure'], wakes: 'cure-dose 1.2 J/cm² at 365 nm' }),
      expect.objectContaining({ rules: ['underdosed-cure'], wakes: 'with LAMP', range: null }),
      expect.objectContaining({ rules: ['open-too-long'], wakes: 'assume opening { during ACT }' }),
      expect.objectContaining({ rules: ['open-too-long'], wakes: 'assume opening { irradiance 1 mW/cm² }' }),
      expect.objectContaining({ rules: ['open-too-long'], wakes: 'open-time 4 min under 1 mW/cm²' }),
      expect.objectContaining({ rules: ['wet-glass'], wakes: 'assume air { temperature 20 °C }' }),
      expect.objectContaining({ rules: ['wet-glass'], wakes: 'assume air { humidity 60 % }' }),
      expect.objectContaining({ rules: ['heated-too-fast'], wakes: 'assume warming { during ACT }' }),
      expect.objectContaining({ rules: ['heated-too-fast'], wakes: 'assume warming { change 15 K }' }),
      expect.objectContaining({ rules: ['heated-too-fast'], wakes: 'assume warming { allowed 40 K }' }),
      expect.objectContaining({ rules: ['vacuum-out-of-reach'], wakes: 'assume air { altitude 500 m }' }),
    ]);
  });

  test('does not double a reason over rules', async () => {
    const bare = chip.replace('assume glass { temperature glass-temperature }\n', '');
    expect(await silences({ 'chip.quarrel': bare, 'equipment.quarrel': equipment }, '--explain-silence')).toEqual(
      expect.arrayContaining([
        {
          procedure: 'chip',
          rules: ['outside-working-range', 'hold-shorter-than-fill', 'wet-glass'],
          message: 'No sheet says which reading is the temperature of the glass.',
          wakes: 'assume glass { temperature READING }',
          file: null,
          range: null,
        },
      ]),
    );
  });

  test('says nothing where nobody asked', async () => {
    expect(await silences({ 'chip.quarrel': chip, 'equipment.quarrel': equipment })).toBeUndefined();
    const { out } = await world({ 'a.quarrel': clean }).quarrel('check', 'a.quarrel');
    expect(out).not.toContain('silent');
  });

  test('in words, between the findings and the sum', async () => {
    const here = world({ 'chip.quarrel': chip, 'equipment.quarrel': equipment });
    const { code, out } = await here.quarrel('check', 'chip.quarrel', '--explain-silence');
    expect(code).toBe(0);
    expect(out).toContain(`Estimates that are silent: 13 reasons. The values shown are examples.
  chip  hold-shorter-than-fill
      The datasheet of "thin" has no line "viscosity" that an estimate can use.
      would wake  ${viscosity}
      belongs to  equipment.quarrel:1:7
`);
    expect(out.indexOf('Estimates that are silent')).toBeLessThan(out.indexOf('Checked: 1 procedure'));
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  test('is silent of what speaks: with every value nothing is left to say', async () => {
    const all = `${chip
      .replace('gap 3 µm', 'gap 3 µm; gap 4 µm')
      .replace('step "Press', 'step "Warm" { do warm; hold 5 min }\n  step "Press')
      .replace('hold 1 min }', 'hold 5 min }\n  step "Cure" { do cure with bench; hold 5 min }')
      .replace('step "Read', 'step "Open" { do load with thin }\n  step "Read')}
act warm
act cure
act load
lamp bench { irradiance 25 mW/cm² at 30 mm; wavelength 365 nm }
assume curing { during cure }
assume opening { during load; irradiance 0.01 mW/cm² }
assume warming { during warm; change 15 K; allowed 20 K }
assume air { temperature 20 °C; humidity 10 %; altitude 500 m }
`;
    const sheet = `${equipment.replace('surface-tension', `${viscosity}\n  cure-dose 1.2 J/cm² at 365 nm\n  open-time 9 min under 1 mW/cm²\n  surface-tension`)}`;
    expect(await silences({ 'chip.quarrel': all, 'equipment.quarrel': sheet }, '--explain-silence')).toEqual([]);
    const { out } = await world({ 'chip.quarrel': all, 'equipment.quarrel': sheet }).quarrel(
      'check',
      'chip.quarrel',
      '--explain-silence',
    );
    expect(out).toContain('No estimate is silent.');
  });
});
