import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { checklistToHtml, checklistToJson, checklistToMarkdown } from '@quarrel/checklist';
import { checkSheets, silencesOf } from '@quarrel/checks';
import { readSheets } from '@quarrel/language';
import type { Procedure } from '@quarrel/model';
import { expect, test } from 'vitest';
import { compiled } from './compiled.js';

/*
  No checklist shows an estimate: whatever is assumed and whatever stands on datasheets, with estimates that find much and without
  any, the checklist is the same to the letter, but for the digest of what it was made from.
*/

/** Every estimate finds something in it, and no word of a step is one of an estimate's. */
const risky = `reading glass-temperature: -10 °C to 40 °C
act warm
act load
act press
act cure
resin thin "Thin resin" {
  viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C
  cure-dose 1.2 J/cm² at 365 nm
  works from 8 °C to 32 °C
  open-time 4 min under 1 mW/cm²
}
lamp bench "Bench lamp" { irradiance 25 mW/cm² at 30 mm }
injector deep "Injector" { pressure 200 kPa; vacuum 85 kPa }
assume glass { temperature glass-temperature }
assume filling { during press; gap 3 µm; length 20 mm }
assume curing { during cure; distance 60 mm }
assume opening { during load; irradiance 2 mW/cm² }
assume warming { during warm; change 30 K; allowed 10 K }
assume air { temperature 20 °C; humidity 60 %; altitude 2000 m }
procedure chip "Chip" {
  covers { glass-temperature from 5 °C to 30 °C }
  step "Read" { read glass-temperature }
  step "Warm" { do warm; hold 20 s }
  step "Load" { do load; with thin; hold 3 min }
  step "Press" { do press with deep; hold 1 min }
  step "Cure" { do cure with bench; hold 1 min }
}
`;

const rules = [
  'outside-working-range',
  'hold-shorter-than-fill',
  'underdosed-cure',
  'open-too-long',
  'wet-glass',
  'heated-too-fast',
  'vacuum-out-of-reach',
];

async function readOne(name: string, text: string, folder = 'file:///shop/') {
  const uri = `${folder}${name}`;
  const source = {
    read: async (one: string) => {
      if (one === uri) return { kind: 'text', text } as const;
      if (!one.startsWith('file:') || folder === 'file:///shop/') return { kind: 'missing' } as const;
      return { kind: 'text', text: readFileSync(fileURLToPath(one), 'utf8') } as const;
    },
  };
  const { sheets } = await readSheets([uri], source, { workspace: folder });
  expect(sheets.flatMap(({ problems }) => problems)).toEqual([]);
  return sheets;
}

/** A procedure of which nothing can be estimated: nobody assumes anything, and no datasheet gives a value. */
function unestimated(procedure: Procedure): Procedure {
  const { vocabulary } = procedure;
  const things = vocabulary.things.map((thing) => ({ ...thing, properties: [] }));
  return { ...procedure, vocabulary: { ...vocabulary, things, assumptions: [] } };
}

/** Without the digest, which tells two procedures apart that differ in anything. */
function outputsOf(procedure: Procedure): Readonly<Record<'html' | 'markdown' | 'json', string>> {
  const checklist = compiled(procedure);
  const { digest } = checklist;
  const plain = (text: string): string => text.replaceAll(digest, '').replaceAll(digest.slice(0, 12), '');
  return {
    html: plain(checklistToHtml(checklist)),
    markdown: plain(checklistToMarkdown(checklist)),
    json: plain(checklistToJson(checklist)),
  };
}

/** What estimates say, in the pieces that only they have: sentences, turning points, durations they ask for. */
function saidOf(sheets: Awaited<ReturnType<typeof readOne>>): readonly string[] {
  return checkSheets(sheets)
    .findings.filter(({ rule }) => rules.includes(rule))
    .flatMap(({ rule, message, because = '', advice = '', source = '', mends }) => [
      rule,
      message,
      because,
      advice,
      source,
      ...message.split(/[;:] /),
      ...(message.match(/\d+\.\d+ °C|\d+ min \d+ s/g) ?? []),
      ...mends.map(({ title }) => title),
    ]);
}

test('no output of a checklist holds anything that an estimate says', async () => {
  const sheets = await readOne('chip.quarrel', risky);
  const found = checkSheets(sheets).findings.map(({ rule }) => rule);
  for (const rule of rules) expect(found).toContain(rule);
  const said = saidOf(sheets);
  expect(said.filter((piece) => /^\d+\.\d+ °C$/.test(piece)).length).toBeGreaterThan(0);
  const outputs = Object.entries(outputsOf(procedureIn(sheets)));
  for (const [format, text] of outputs) {
    for (const piece of said) expect(text, `${format}: ${piece}`).not.toContain(piece);
    for (const word of ['estimate', 'assume', 'hold-shorter', 'Washburn', 'Sonntag', '3 µm']) {
      expect(text.toLowerCase(), format).not.toContain(word.toLowerCase());
    }
  }
});

test('a checklist is the same, to the letter, whether estimates can be made or not', async () => {
  const folder = fileURLToPath(new URL('../../examples/school/', import.meta.url));
  const school = readFileSync(`${folder}stone-chip.quarrel`, 'utf8');
  const standard = procedureIn(await readOne('stone-chip.quarrel', school, pathToFileURL(folder).href));
  for (const procedure of [procedureIn(await readOne('chip.quarrel', risky)), standard]) {
    expect(procedure.vocabulary.assumptions.length).toBeGreaterThan(0);
    expect(silencesOf(unestimated(procedure)).length).toBeGreaterThan(0);
    expect(outputsOf(unestimated(procedure))).toEqual(outputsOf(procedure));
  }
});

function procedureIn(sheets: Awaited<ReturnType<typeof readOne>>): Procedure {
  const [procedure] = sheets.flatMap(({ procedures }) => procedures);
  if (procedure === undefined) throw new Error('no procedure');
  return procedure;
}
