import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { expectGolden } from './golden.js';
import { clean, curedUnfilled, warned } from './sheets.js';
import { world } from './world.js';

const schema: object = JSON.parse(
  readFileSync(new URL('../../docs/schemas/findings.schema.json', import.meta.url), 'utf8'),
);
const validate = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true }).compile(schema);

function parsed(text: string): unknown {
  const document: unknown = JSON.parse(text);
  validate(document);
  expect(validate.errors ?? []).toEqual([]);
  return document;
}

describe('exit codes', () => {
  test.each([
    ['an error', [], 1, curedUnfilled],
    ['an error', ['--fail-on', 'warning'], 1, curedUnfilled],
    ['an error', ['--fail-on', 'never'], 0, curedUnfilled],
    ['a warning', [], 0, warned],
    ['a warning', ['--fail-on', 'warning'], 1, warned],
    ['a warning', ['--fail-on', 'never'], 0, warned],
    ['nothing', ['--fail-on', 'warning'], 0, clean],
  ] as const)('%s %j: %i', async (_, options, code, text) => {
    const outcome = await world({ 'a.quarrel': text }).quarrel('check', 'a.quarrel', ...options);
    expect(outcome.code).toBe(code);
    expect(outcome.err).toBe('');
  });
});

describe('JSON', () => {
  test('gives a finding as the contract has it', async () => {
    const { out } = await world({ 'sheets/draft.quarrel': curedUnfilled }).quarrel(
      'check',
      'sheets',
      '--format',
      'json',
    );
    expect(parsed(out)).toEqual({
      version: 1,
      findings: [
        {
          rule: 'cure-after-fill',
          severity: 'error',
          file: 'sheets/draft.quarrel',
          range: { start: { line: 14, column: 40 }, end: { line: 14, column: 44 } },
          message: expect.stringContaining('"cure" needs cavity filled'),
          procedure: 'chip',
          region: 'break is bullseye, combination',
          witness: { break: 'bullseye' },
          path: [{ step: 'look', file: 'sheets/draft.quarrel', line: 10, text: 'Name the break' }],
          source: 'common practice',
          because: 'Curing locks in whatever air is left.',
          advice: expect.any(String),
          related: [
            {
              file: 'sheets/draft.quarrel',
              range: { start: { line: 5, column: 3 }, end: expect.anything() },
              message: expect.any(String),
            },
          ],
          mend: {
            title: 'Do press before this step in these situations',
            edits: [
              {
                file: 'sheets/draft.quarrel',
                range: { start: { line: 14, column: 3 }, end: { line: 14, column: 3 } },
                text: 'when break is bullseye, combination {\n    step "Press" { do press }\n  }\n  ',
              },
            ],
          },
        },
      ],
      waived: [],
      summary: { errors: 1, warnings: 0, infos: 0, waived: 0, procedures: 1, sheets: 1 },
    });
    expect(Object.keys(JSON.parse(out).findings[0]).slice(0, 10)).toEqual([
      'rule',
      'severity',
      'file',
      'range',
      'message',
      'procedure',
      'region',
      'witness',
      'path',
      'source',
    ]);
  });

  test('has an entry of the witness for every condition, readings in UCUM', async () => {
    const text = `reading glass-temperature: 0 °C to 40 °C
reading humidity: 0 % to 100 %
observation sky: clear, dull
resin thin
procedure chip "Stone chip" {
  choose resin fill { when glass-temperature below 15 °C: thin }
  step read "Read" { read glass-temperature; observe sky; takes 5 s }
  step fill "Fill" { with fill; takes 5 s }
  step also "Ask" { read humidity; takes 5 s }
}
`;
    const { out } = await world({ 'a.quarrel': text }).quarrel('check', 'a.quarrel', '--format', 'json');
    expect(parsed(out)).toMatchObject({
      findings: [
        {
          rule: 'gap-in-choice',
          region: 'glass-temperature at least 15 °C',
          witness: {
            sky: expect.stringMatching(/^(clear|dull)$/),
            'glass-temperature': expect.stringMatching(/^\d+(\.\d+)? Cel$/),
            humidity: expect.stringMatching(/^\d+(\.\d+)? %$/),
          },
          mend: { edits: [{ file: 'a.quarrel', range: { start: { line: 6 } } }] },
        },
      ],
    });
  });

  test('has every field where there is no situation', async () => {
    const { out } = await world({ 'a.quarrel': 'procedure a "A" { step s "S" { hold 60 } }' }).quarrel(
      'check',
      'a.quarrel',
      '--format',
      'json',
    );
    expect(parsed(out)).toMatchObject({
      findings: [{ rule: 'unit-missing', procedure: null, region: null, witness: null, path: [] }],
    });
  });

  test('lists what is waived apart, with the reason', async () => {
    const text = curedUnfilled.replace('do cure;', 'do cure; waive cure-after-fill because "A trial on scrap glass.";');
    const { code, out } = await world({ 'a.quarrel': text }).quarrel('check', 'a.quarrel', '--format', 'json');
    expect(code).toBe(0);
    expect(parsed(out)).toMatchObject({
      findings: [],
      waived: [
        { rule: 'cure-after-fill', region: 'break is bullseye, combination', waivedBecause: 'A trial on scrap glass.' },
      ],
      summary: { errors: 0, waived: 1 },
    });
  });

  test('of the faulty draft and of the standard keeps to the schema', async () => {
    const read = (path: string) => readFileSync(new URL(`../../examples/${path}`, import.meta.url), 'utf8');
    const names = ['equipment', 'house-rules', 'stone-chip', 'surface-pit'];
    const here = world({
      'draft.quarrel': read('draft/faulty-draft.quarrel'),
      ...Object.fromEntries(names.map((name) => [`school/${name}.quarrel`, read(`school/${name}.quarrel`)])),
    });
    const draft = await here.quarrel('check', 'draft.quarrel', '--format', 'json');
    expect(draft.code).toBe(1);
    expect(parsed(draft.out)).toMatchObject({ summary: { procedures: 1, sheets: 1 } });
    const school = await here.quarrel('check', 'school', '--format', 'json', '--fail-on', 'warning');
    expect(parsed(school.out)).toEqual({
      version: 1,
      findings: [],
      waived: [],
      summary: { errors: 0, warnings: 0, infos: 0, waived: 0, procedures: 2, sheets: 4 },
    });
    expect(school.code).toBe(0);
  });
});

describe('text', () => {
  test('of the faulty draft', async () => {
    const text = readFileSync(new URL('../../examples/draft/faulty-draft.quarrel', import.meta.url), 'utf8');
    const { out, err } = await world({ 'faulty-draft.quarrel': text }).quarrel('check', 'faulty-draft.quarrel');
    expectGolden('faulty-draft.txt', out);
    expect(err).toBe('');
  });

  test('of a small sheet, with a waived finding', async () => {
    const waiving = curedUnfilled
      .replaceAll('chip', 'trial')
      .replace(
        'do cure;',
        'do cure; waive cure-after-fill because "A trial on scrap glass, in the school\'s cabinet.";',
      );
    const { out } = await world({ 'chip.quarrel': curedUnfilled, 'trial.quarrel': waiving }).quarrel('check', '.');
    expectGolden('small.txt', out);
  });

  test('of sheets without findings', async () => {
    const { out } = await world({ 'a.quarrel': clean }).quarrel('check', 'a.quarrel');
    expectGolden('clean.txt', out);
  });

  test('has colours only where they are wanted', async () => {
    const plain = await world({ 'a.quarrel': curedUnfilled }).quarrel('check', 'a.quarrel');
    expect(plain.out).not.toContain('\u001b');
    const coloured = await world({ 'a.quarrel': curedUnfilled }, {}, { colours: true }).quarrel('check', 'a.quarrel');
    expect(coloured.out).toContain('\u001b[31m');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are control characters
    expect(coloured.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
    const json = await world({ 'a.quarrel': curedUnfilled }, {}, { colours: true }).quarrel(
      'check',
      'a.quarrel',
      '--format',
      'json',
    );
    expect(json.out).not.toContain('\u001b');
  });

  test('shows what would steer a terminal as a dot', async () => {
    const text = 'procedure a "A" { step s "S" { takes 5 } } // \u001b[2J\u202e\n';
    const { out } = await world({ 'a.quarrel': text }).quarrel('check', 'a.quarrel');
    expect(out).toContain('//');
    expect(out).not.toContain('\u001b');
    expect(out).not.toContain('\u202e');
  });
});

describe('the marker', () => {
  /** The shown line and its marker, for a sheet whose last line is `line`. */
  async function shown(line: string): Promise<readonly string[]> {
    const { out } = await world({ 'a.quarrel': `procedure a "A" {\n${line}\n}\n` }).quarrel('check', 'a.quarrel');
    const lines = out.split('\n');
    const at = lines.findIndex((one) => /^ +=+$/.test(one));
    return lines.slice(at - 1, at + 1);
  }

  test('stands right behind tabs', async () => {
    expect(await shown('\tstep s\t"S" { do bogus }')).toEqual([
      '  2  step s  "S" { do bogus }',
      '                      =====',
    ]);
  });

  test('stands right behind characters that are two columns wide, and behind those that are none', async () => {
    expect(await shown('step s "硝子 e\u0301" { do bogus }')).toEqual([
      '  2  step s "硝子 e\u0301" { do bogus }',
      '                          =====',
    ]);
  });

  test('stays in sight in a long line', async () => {
    const [line = '', marker = ''] = await shown(`step s "${'x'.repeat(300)}" { do bogus } // ${'y'.repeat(300)}`);
    expect(line.length).toBeLessThanOrEqual(100);
    expect(line.slice(marker.indexOf('='), marker.length)).toBe('bogus');
  });
});

describe('which sheets', () => {
  test('a folder gives its sheets in order, without node_modules and folders whose names begin with a dot', async () => {
    const broken = 'procedure p "P" { step s "S" { takes 5 } }';
    const { out } = await world({
      'f/b.quarrel': broken,
      'f/a/z.quarrel': broken,
      'f/c.txt': broken,
      'f/node_modules/x.quarrel': broken,
      'f/.hidden/x.quarrel': broken,
    }).quarrel('check', 'f', 'f/b.quarrel', '--format', 'json');
    const { findings, summary } = JSON.parse(out);
    expect(findings.map(({ file }: { file: string }) => file)).toEqual(['f/a/z.quarrel', 'f/b.quarrel']);
    expect(summary.sheets).toBe(2);
  });

  test('what is used is read too, and reported on only where it was asked for', async () => {
    const texts = {
      'shop/equipment.quarrel': 'resin thin { surface-tension 33 }',
      'shop/job.quarrel': 'use "equipment"\nprocedure p "P" { step s "S" { with thin; takes 5 s } }',
    };
    const alone = await world(texts).quarrel('check', 'shop/job.quarrel');
    expect(alone.code).toBe(0);
    expect(alone.out).toContain('No findings.');
    expect(alone.err).toBe('shop/equipment.quarrel is used and has 1 error itself; check it too.\n');
    const both = await world(texts).quarrel('check', 'shop');
    expect(both.code).toBe(1);
    expect(both.out).toContain('unit-missing (error)  shop/equipment.quarrel:1:30');
    expect(both.err).toBe('');
  });

  test('findings of what ships are not reported', async () => {
    const { code, out, err } = await world({ 'a.quarrel': 'use "quarrel:laminated-glass"\n' }).quarrel(
      'check',
      'a.quarrel',
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('No findings. Checked: 0 procedures in 1 sheet.');
  });

  test('use may not lead out of the workspace: the nearest folder with package.json or .git, else the common folder', async () => {
    const texts = { 'outer/base.quarrel': 'resin thin', 'outer/inner/a.quarrel': 'use "../base"\n' };
    const bare = await world(texts).quarrel('check', 'outer/inner');
    expect(bare.code).toBe(1);
    expect(bare.out).toContain('unknown-sheet (error)  outer/inner/a.quarrel:1:5');
    const marked = await world({ ...texts, 'outer/package.json': '{}' }).quarrel('check', 'outer/inner');
    expect(marked.code).toBe(0);
    const both = await world(texts).quarrel('check', 'outer/inner', 'outer/base.quarrel');
    expect(both.code).toBe(0);
  });

  test('a byte order mark does not move columns', async () => {
    const { out } = await world({ 'a.quarrel': '\uFEFFprocedure p "P" { step s "S" { takes 5 } }' }).quarrel(
      'check',
      'a.quarrel',
    );
    expect(out).toContain('a.quarrel:1:38');
  });
});
