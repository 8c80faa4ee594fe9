import { checkSheets, silencesOf } from '@quarrel/checks';
import { describe, expect, test } from 'vitest';
import { pageOf } from './pages.js';
import { read } from './reading.js';

/** What a sheet says of one rule: its findings, and the lines that would wake it. */
async function said(sheet: string, rule: string) {
  const sheets = await read({ sheet });
  expect(sheets.flatMap(({ problems }) => problems.filter((one) => one.rule !== 'unused-declaration'))).toEqual([]);
  const [procedure] = sheets.flatMap(({ procedures }) => procedures);
  if (procedure === undefined) throw new Error('no procedure');
  return {
    findings: checkSheets(sheets).findings.filter((finding) => finding.rule === rule),
    wakes: silencesOf(procedure)
      .filter(({ rules }) => rules.includes(rule))
      .map(({ wakes }) => wakes),
  };
}

/** A line of a sheet, and what puts it back: in its place, or as a block of its own. */
interface Line {
  readonly line: string;
  /** The line that has to be named. */
  readonly wakes: string;
  /** The same with the names of the sheet; missing where the line named has none. */
  readonly named?: string;
  /** With the example's value there is nothing to find. */
  readonly isEnough?: true;
}

const glass: Line = {
  line: 'temperature glass-temperature',
  wakes: 'assume glass { temperature READING }',
  named: 'assume glass { temperature glass-temperature }',
};
const pressing: Line = {
  line: 'during press-resin',
  wakes: 'assume filling { during ACT }',
  named: 'assume filling { during press-resin }',
};

const lines: Readonly<Record<string, readonly Line[]>> = {
  'outside-working-range': [glass, { line: 'works from 5 °C to 32 °C', wakes: 'works from 5 °C to 35 °C' }],
  'hold-shorter-than-fill': [
    glass,
    pressing,
    { line: 'gap 3 µm', wakes: 'assume filling { gap 3 µm }' },
    { line: 'length 20 mm', wakes: 'assume filling { length 20 mm }' },
    {
      line: 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C',
      wakes: 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C',
    },
    { line: 'pressure 200 kPa', wakes: 'pressure 200 kPa' },
  ],
  'underdosed-cure': [
    { line: 'during cure', wakes: 'assume curing { during ACT }', named: 'assume curing { during cure }' },
    { line: 'cure-dose 1.2 J/cm² at 365 nm', wakes: 'cure-dose 1.2 J/cm² at 365 nm' },
    { line: 'irradiance 25 mW/cm² at 30 mm', wakes: 'irradiance 25 mW/cm² at 30 mm' },
  ],
  'open-too-long': [
    {
      line: 'during load-resin',
      wakes: 'assume opening { during ACT }',
      named: 'assume opening { during load-resin }',
    },
    pressing,
    { line: 'irradiance 2 mW/cm²', wakes: 'assume opening { irradiance 1 mW/cm² }', isEnough: true },
    { line: 'open-time 4 min under 1 mW/cm²', wakes: 'open-time 4 min under 1 mW/cm²' },
  ],
  'wet-glass': [
    glass,
    pressing,
    { line: 'temperature 20 °C', wakes: 'assume air { temperature 20 °C }' },
    { line: 'humidity 60 %', wakes: 'assume air { humidity 60 % }' },
  ],
  'heated-too-fast': [
    { line: 'during warm', wakes: 'assume warming { during ACT }', named: 'assume warming { during warm }' },
    { line: 'change 15 K', wakes: 'assume warming { change 15 K }' },
    { line: 'allowed 20 K', wakes: 'assume warming { allowed 40 K }' },
  ],
  'vacuum-out-of-reach': [
    { line: 'altitude 2000 m', wakes: 'assume air { altitude 500 m }', isEnough: true },
    { line: 'vacuum 85 kPa', wakes: 'vacuum 85 kPa' },
  ],
};

describe.each(Object.entries(lines))('%s', (rule, all) => {
  const { fails } = pageOf(rule);

  test('speaks while nothing is missing', async () => {
    const { findings, wakes } = await said(fails, rule);
    expect(findings.length).toBeGreaterThan(0);
    expect(wakes).toEqual([]);
  });

  test.each(all)('without "$line" is silent and names that line; with it, it wakes', async (one) => {
    expect(fails.split(one.line).length, 'stands in the sheet once').toBe(2);
    const without = fails.replace(one.line, '');
    const { findings, wakes } = await said(without, rule);
    expect(findings).toEqual([]);
    expect(wakes).toEqual([one.wakes]);
    const isBlock = one.wakes.startsWith('assume ');
    const woken = isBlock ? `${without}\n${one.named ?? one.wakes}\n` : fails.replace(one.line, one.named ?? one.wakes);
    const again = await said(woken, rule);
    expect(again.wakes).toEqual([]);
    expect(again.findings.length > 0).toBe(one.isEnough !== true);
  });
});

describe('what is written and of no use keeps an estimate silent as well', () => {
  const { fails } = pageOf('hold-shorter-than-fill');

  test.each([
    ['90 mPa·s at 5 °C', '30 mPa·s at 5 °C', /does not fall/],
    ['90 mPa·s at 5 °C', '90 mPa·s at 20 °C', /two viscosities at one temperature/],
    ['gap 3 µm', 'gap 3 mm', /The gap lies beyond/],
    ['length 20 mm', 'length 20 m', /The length lies beyond/],
    ['33 mN/m }\ninjector small { pressure 200 kPa', '0 mN/m }\ninjector small { pressure 0 kPa', /Nothing pushes/],
  ])('%s → %s', async (line, otherwise, reason) => {
    const [sheet] = await read({ sheet: fails.replace(line, otherwise) });
    const [procedure] = sheet?.procedures ?? [];
    if (sheet === undefined || procedure === undefined) throw new Error('no procedure');
    expect(checkSheets([sheet]).findings).toEqual([]);
    expect(
      silencesOf(procedure)
        .filter(({ rules }) => rules.includes('hold-shorter-than-fill'))
        .map(({ message }) => message),
    ).toEqual([expect.stringMatching(reason)]);
  });
});

test('nothing would wake an estimate of what no step does', async () => {
  const idle = pageOf('hold-shorter-than-fill')
    .fails.replace('do press-resin with small; ', '')
    .replace('gap 3 µm; ', '');
  expect((await said(idle, 'hold-shorter-than-fill')).wakes).toEqual([]);
});

test('a shop’s own block counts before what ships, wherever it stands', async () => {
  const procedure = `procedure chip {
  covers { glass-temperature from 5 °C to 30 °C; break is star }
  step "Look" { observe break; read glass-temperature }
  step "Press" { do press-resin with small; with thin; hold 30 s }
}
`;
  const things = `resin thin { viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C; surface-tension 33 mN/m }
injector small { pressure 200 kPa }
`;
  const use = 'use "quarrel:laminated-glass"\n';
  const gapOf = async (texts: Readonly<Record<string, string>>): Promise<string | undefined> => {
    const { findings } = checkSheets(await read(texts));
    const found = findings.filter(({ rule }) => rule === 'hold-shorter-than-fill');
    expect(found.length).toBe(1);
    return /plates (\S+ \S+) apart/.exec(found[0]?.because ?? '')?.[1];
  };
  const own = 'assume filling { gap 1.5 µm }\n';
  expect(await gapOf({ sheet: `${use}${things}${procedure}` })).toBe('3 µm');
  expect(await gapOf({ sheet: `${use}${own}${things}${procedure}` })).toBe('1.5 µm');
  expect(await gapOf({ sheet: `${use}use "ours"\n${things}${procedure}`, ours: own })).toBe('1.5 µm');
  expect(await gapOf({ sheet: `use "ours"\n${use}${things}${procedure}`, ours: `${use}${own}` })).toBe('1.5 µm');
});
