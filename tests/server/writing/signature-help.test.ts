import { beforeAll, expect, test } from 'vitest';
import { signatureHelp } from '../../../packages/server/src/features/signature-help/signature-help.js';
import { createWorld, marked, type World } from '../harness.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
});

const vocabulary = `reading glass-temperature: -20 °C to 60 °C
state seal: off, tight
hazard uv "UV light" warning
act tighten { makes seal tight }
act press { needs seal is tight }
act cure raises uv
rule long-press { hold of press at least 2 min because "Thick resin." }
rule cold-cure { hold of cure at least 3 min when glass-temperature below 10 °C because "Cold." }
`;

/** What is shown at the mark, and which part of it is marked. */
async function shown(procedure: string) {
  const { text, cursor: position } = marked(`${vocabulary}${procedure}`);
  const document = await world.open('helped', text);
  world.services.quarrel.check.Checks.of(document);
  const help = signatureHelp(document, { position }, world.services.quarrel);
  const [signature] = help?.signatures ?? [];
  if (help === undefined || signature === undefined) return undefined;
  const parts = (signature.parameters ?? []).map(({ label }) =>
    typeof label === 'string' ? label : signature.label.slice(...label),
  );
  const { documentation } = signature;
  return {
    parts,
    active: parts[help.activeParameter ?? -1],
    why: typeof documentation === 'object' ? documentation.value : '',
  };
}

const step = (clauses: string, before = ''): string => `procedure p {\n  ${before}\n  step "A" { ${clauses} }\n}\n`;

test('a hazard that nothing has announced', async () => {
  const help = await shown(step('do cure; takes 5 s<|>'));
  expect(help?.parts).toEqual(['do cure', 'takes 5 s', '+ caution uv', '+ hold at least 3 min']);
  expect(help?.why).toContain('`caution uv`: `cure` raises it');
});

test('not one that is announced here or before', async () => {
  expect((await shown(step('caution uv; do cure<|>')))?.parts).toEqual([
    'caution uv',
    'do cure',
    '+ hold at least 3 min',
    '+ takes …',
  ]);
  expect((await shown(step('do cure<|>', 'step "B" { caution uv }')))?.parts).not.toContain('+ caution uv');
});

test('an act that the acts of the step need before them', async () => {
  const help = await shown(step('do press; takes 5 s<|>'));
  expect(help?.parts).toContain('+ do tighten');
  expect(help?.why).toContain('needs seal tight, which is not so here; `tighten` makes it so');
  expect((await shown(step('do press; takes 5 s<|>', 'step "B" { do tighten }')))?.parts).not.toContain('+ do tighten');
  expect((await shown(step('do tighten, press; takes 5 s<|>')))?.parts).not.toContain('+ do tighten');
});

test('a hold that a rule asks for, where it asks', async () => {
  const tight = 'step "B" { do tighten; caution uv }';
  expect((await shown(step('do press; takes 5 s<|>', tight)))?.parts).toEqual([
    'do press',
    'takes 5 s',
    '+ hold at least 2 min',
  ]);
  expect(await shown(step('do press; hold at least 1 min<|>', tight))).toBeUndefined();
  const warm = `covers { glass-temperature at least 15 °C }\n  ${tight}`;
  expect(await shown(step('do cure; takes 5 s<|>', warm))).toBeUndefined();
});

test('the clause at the cursor is marked', async () => {
  expect((await shown(step('do <|>press; takes 5 s')))?.active).toBe('do press');
  expect((await shown(step('do press; takes <|>5 s; note "x"')))?.active).toBe('takes 5 s');
});

test('between two clauses the first that is missing is marked', async () => {
  expect((await shown(step('do cure; takes 5 s; <|>')))?.active).toBe('+ caution uv');
});

test('nothing outside of a step, and nothing where nothing is missing', async () => {
  expect(await shown(`procedure p {\n  <|>\n  step "A" { do cure }\n}\n`)).toBeUndefined();
  expect(await shown(step('note "x"; <|>'))).toBeUndefined();
  expect(await shown(step('do cure; note "x<|>"'))).toBeUndefined();
});
