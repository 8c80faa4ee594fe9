import { topics } from '@quarrel/language';
import { beforeAll, describe, expect, test } from 'vitest';
import { createWorld, marked, type World } from '../harness.js';
import { itemsAt, labelsOf, offered } from './offered.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
});

const vocabulary = `observation break "Break type": bullseye, half-moon, star
observation zone: edge, elsewhere
reading glass-temperature: -20 °C to 60 °C
state seal: off, seated, tight
state cavity: empty, evacuated, filled
hazard uv "UV light" warning { wear "glasses that block UV" }
hazard splinters caution
act cure "Cure the resin" { needs cavity is filled as cure-after-fill because "Air stays."; raises uv }
act seat-injector { makes seal seated }
act tighten { needs seal is seated; makes seal tight }
act draw-vacuum "Draw vacuum" { needs seal is tight as vacuum-needs-seal because "It leaks."; makes cavity evacuated }
rule seat-first { seat-injector comes before draw-vacuum }
resin thin
resin thick
lamp bench
injector small
limits larkmoor { allows zone is elsewhere }
`;

interface Case {
  /** The text behind the vocabulary, with the cursor. */
  readonly at: string;
  /** What is offered first, in order; all of it where it ends in `only`. */
  readonly first?: readonly string[];
  readonly only?: readonly string[];
  readonly not?: readonly string[];
}

const inProcedure = (text: string): string => `procedure p "A procedure" {\n${text}\n}\n`;
const inStep = (text: string): string => inProcedure(`  step "A step" {\n    ${text}\n  }`);

const cases: Readonly<Record<string, Case>> = {
  'a sheet: what declares, and no parts of a procedure': {
    at: '<|>',
    first: ['use', 'procedure'],
    not: ['step', 'stage', 'covers', 'do', 'because'],
  },
  'a new name: nothing': { at: 'act <|>', only: [] },
  'a procedure: its head first': {
    at: inProcedure('  <|>'),
    only: [
      'revision',
      'covers',
      'within limits',
      'choose',
      'step',
      'stage',
      'when',
      'repeat',
      'stop',
      'caution',
      'waive',
    ],
  },
  'a procedure: the flow first, once it has begun, and nothing that is there already': {
    at: inProcedure('  revision "1"\n  step "A"\n  <|>'),
    first: ['step', 'stage', 'when', 'repeat', 'stop'],
    not: ['revision', 'do'],
  },
  'a head that stands below': { at: inProcedure('  <|>\n  revision "1"\n  step "A"'), not: ['revision'] },
  limits: { at: inProcedure('  within limits <|>'), only: ['larkmoor'] },
  'a step: its clauses': {
    at: inStep('<|>'),
    only: ['do', 'observe', 'read', 'with', 'takes', 'hold', 'check', 'caution', 'note', 'photo', 'meanwhile', 'waive'],
  },
  'a step with a hold above and a time below': {
    at: inStep('hold 1 min\n    <|>\n    takes 2 s'),
    not: ['hold', 'takes', 'accept'],
  },
  'accept behind a reading only': { at: inStep('read glass-temperature <|>'), only: ['accept'] },
  'accept on the line below it': { at: inStep('read glass-temperature\n    <|>'), first: ['accept'] },
  'with behind do': { at: inStep('do cure <|>'), only: ['with'] },
  'a check goes on': { at: inStep('check "Seen" <|>'), only: ['confirms', 'or else stop'] },
  'nothing else on the line of a hold': { at: inStep('hold 15 s <|>'), only: ['to'] },
  'the first act: only what is ready': {
    at: inStep('do <|>'),
    only: ['seat-injector', 'cure', 'tighten', 'draw-vacuum'],
  },
  'acts whose needs an earlier step has met come first': {
    at: inProcedure('  step "A" { do seat-injector }\n  step "B" { do tighten }\n  step "C" { do <|> }'),
    first: ['seat-injector', 'draw-vacuum', 'cure', 'tighten'],
  },
  'acts that an earlier act of the same step makes ready': {
    at: inStep('do seat-injector, tighten, <|>'),
    first: ['seat-injector', 'draw-vacuum', 'cure', 'tighten'],
  },
  'acts that are ready in some situations come behind those that are ready in all': {
    at: inProcedure(
      '  step "A" { observe break }\n  when break is star { step "B" { do seat-injector } }\n  step "C" { do <|> }',
    ),
    only: ['seat-injector', 'tighten', 'cure', 'draw-vacuum'],
  },
  'conditions that are known first': {
    at: inProcedure('  step "A" { observe zone }\n  when <|>'),
    only: ['zone', 'break', 'glass-temperature', 'not', 'always'],
  },
  'what can be asked of an observation': { at: inProcedure('  when break <|>'), only: ['is'] },
  'what can be asked of a reading': {
    at: inProcedure('  when glass-temperature <|>'),
    only: ['is', 'from', 'at', 'below', 'above'],
  },
  values: { at: inProcedure('  when break is <|>'), only: ['bullseye', 'half-moon', 'star', 'not'] },
  'no value twice': { at: inProcedure('  when break is star, <|>'), only: ['bullseye', 'half-moon'] },
  'values that no earlier case asks for first': {
    at: inProcedure(
      '  when break is bullseye { stop "x" } otherwise when break is star { stop "y" } otherwise when break is <|>',
    ),
    first: ['half-moon', 'bullseye', 'star'],
  },
  'values of a choice': {
    at: inProcedure('  choose resin fill {\n    when break is half-moon: thin\n    when break is <|>\n  }'),
    first: ['bullseye', 'star', 'half-moon'],
  },
  'what a choice takes': {
    at: inProcedure('  choose resin fill {\n    when break is star: <|>\n  }'),
    only: ['thin', 'thick'],
  },
  'a choice has one otherwise': {
    at: inProcedure('  choose resin fill {\n    <|>\n    otherwise: thin\n  }'),
    only: ['when'],
  },
  'observations that are not known yet first': {
    at: inProcedure('  step "A" { observe break }\n  step "B" { observe <|> }'),
    only: ['zone', 'break'],
  },
  readings: { at: inStep('read <|>'), only: ['glass-temperature'] },
  'choices before things': {
    at: inProcedure('  choose resin fill { otherwise: thin }\n  step "A" { with <|> }'),
    only: ['fill', 'thin', 'thick', 'bench', 'small'],
  },
  'hazards that the step raises first': { at: inStep('do cure\n    caution <|>'), only: ['uv', 'splinters'] },
  'hazards raised by an act below': { at: inStep('caution <|>\n    do cure'), first: ['uv'] },
  'no hazard twice': { at: inStep('caution uv\n    caution <|>'), only: ['splinters'] },
  'rules that the step breaks first': {
    at: inStep('do cure\n    waive <|>'),
    first: ['cure-after-fill', 'hazard-unannounced'],
    not: ['syntax', 'unknown-name'],
  },
  'states to confirm': { at: inStep('check "Seen" confirms <|>'), only: ['seal', 'cavity'] },
  'values to confirm, the first one last': {
    at: inStep('check "Seen" confirms cavity <|>'),
    only: ['evacuated', 'filled', 'empty'],
  },
  'times behind hold': { at: inStep('hold 15 <|>'), only: ['s', 'min', 'h', 'to'] },
  'times while one is typed': { at: inStep('hold 15 to 30 m<|>'), only: ['s', 'min', 'h'] },
  'temperatures behind accept': {
    at: inStep('read glass-temperature\n    accept 5 <|>'),
    only: ['°C', '°F', 'K', 'to'],
  },
  'temperatures in a test': { at: inProcedure('  when glass-temperature below 10 <|>'), only: ['°C', '°F', 'K'] },
  amounts: { at: inStep('with thin amount 4 to 6 <|>'), only: ['drops', 'ml', 'pieces'] },
  'lines of a datasheet that are not there yet': {
    at: 'resin new {\n  viscosity 35 cP\n  <|>\n  works from 5 °C to 30 °C\n}',
    only: ['surface-tension', 'cure-dose', 'open-time'],
  },
  'units of a line of a datasheet': { at: 'resin new { viscosity 35 <|>', first: ['mPa·s', 'Pa·s', 'cP'], not: ['s'] },
  'units behind at': { at: 'resin new { viscosity 35 cP at 20 <|>', first: ['°C', '°F', 'K'], not: ['cP'] },
  'signal words': { at: 'hazard heat "Heat" <|>', only: ['danger', 'warning', 'caution', 'notice'] },
  'what a rule asks': { at: 'rule r { <|> }', first: ['cure', 'seat-injector'] },
  'a rule asks for one thing': {
    at: 'rule r {\n  cure comes before tighten\n  <|>\n}',
    only: ['when', 'severity', 'because', 'source'],
  },
  'states before conditions in what an act needs': {
    at: 'act polish { needs <|> }',
    only: ['seal', 'cavity', 'break', 'zone', 'glass-temperature', 'not', 'always'],
  },
  'no states in a when': { at: inProcedure('  when <|>'), not: ['seal', 'cavity'] },
  'procedures of an example': { at: `${inStep('note "x"')}example "One" of <|>`, only: ['p'] },
  'steps of an example': {
    at: 'procedure p { step look "Look" { observe break }; step lift "Lift" }\nexample "One" of p { has step <|> }',
    only: ['look', 'lift'],
  },
  'steps of a variation': {
    at: 'procedure p { step look "Look"; step lift "Lift" }\nvariation v of p { omit step <|> }',
    only: ['look', 'lift'],
  },
  'what is assumed about': { at: 'assume <|>', only: Object.keys(topics) },
  'a comment': { at: inStep('// do <|>'), only: [] },
  'a comment of several lines': { at: '/* act\n <|>', only: [] },
  'a text': { at: inStep('note "do <|>"'), only: [] },
  'a text that is not closed': { at: inStep('note "do <|>'), only: [] },
  'a number': { at: inStep('hold 1<|>'), only: [] },
  'a step whose brace is missing': { at: 'procedure p {\n  step "A" {\n    do <|>\n', first: ['seat-injector'] },
  'a step behind one whose brace is missing': {
    at: 'procedure p {\n  step "A" {\n    do seat-injector\n  step "B" {\n    <|>\n',
    first: ['do', 'observe'],
    not: ['step'],
  },
  'a declaration behind a procedure whose braces are missing': {
    at: 'procedure p {\n  step "A" {\n    do seat-injector\nact polish {\n  <|>',
    only: ['needs', 'makes', 'raises', 'source'],
  },
  'a clause behind one that is broken': {
    at: inStep('hold to to 3\n    with <|>'),
    only: ['thin', 'thick', 'bench', 'small'],
  },
  'a block whose head is broken': {
    at: inProcedure('  stage {\n    <|>\n  }'),
    first: ['step', 'stage', 'when'],
    not: ['do'],
  },
};

test.each(Object.entries(cases))('%s', async (_, { at, first, only, not }) => {
  const labels = labelsOf(await offered(world, `${vocabulary}${at}`));
  if (only !== undefined) expect(labels).toEqual(only);
  if (first !== undefined) expect(labels.slice(0, first.length)).toEqual(first);
  for (const label of not ?? []) expect(labels).not.toContain(label);
});

describe('beside the name', () => {
  const itemOf = async (source: string, label: string) => {
    const item = (await offered(world, `${vocabulary}${source}`)).find((one) => one.label === label);
    if (item === undefined) throw new Error(`${label} is not offered`);
    return item;
  };

  test('how an act stands here', async () => {
    expect((await itemOf(inStep('do <|>'), 'seat-injector')).detail).toBe('ready here');
    expect((await itemOf(inStep('do <|>'), 'draw-vacuum')).detail).toBe('needs seal tight');
    const partly =
      '  step "A" { observe break }\n  when break is star { step "B" { do seat-injector } }\n  step "C" { do <|> }';
    expect((await itemOf(inProcedure(partly), 'tighten')).detail).toBe(
      'needs seal seated: not so in every situation here',
    );
  });

  test('what an act needs, makes and raises', async () => {
    const { documentation } = await itemOf(inStep('do <|>'), 'cure');
    const value = typeof documentation === 'object' ? documentation.value : '';
    expect(value).toContain('Cure the resin');
    expect(value).toContain('`cavity is filled`');
    expect(value).toContain('`uv`');
  });

  test('words for people find it', async () => {
    expect((await itemOf(inStep('do <|>'), 'cure')).filterText).toBe('cure Cure the resin');
  });

  test('what a word of the language is for', async () => {
    const { documentation } = await itemOf(inStep('<|>'), 'hold');
    expect(documentation).toMatchObject({ kind: 'markdown', value: expect.stringContaining('`hold ') });
  });
});

describe('the place of the edit', () => {
  test('all of the word at the cursor', async () => {
    const { text, cursor } = marked(`${vocabulary}${inStep('do draw-va<|>cu')}`);
    const document = await world.open('typed', text);
    const item = itemsAt(world, document, cursor).find(({ label }) => label === 'draw-vacuum');
    const range = item?.textEdit !== undefined && 'range' in item.textEdit ? item.textEdit.range : undefined;
    expect(range && document.textDocument.getText(range)).toBe('draw-vacu');
  });
});

describe('paths of sheets', () => {
  test('those of the workspace by their way from here, then what ships, none that is used already', async () => {
    const own = await createWorld();
    const { text, cursor } = marked('use "equipment"\nuse "quarrel:laminated-glass"\nuse "<|>"\n');
    const sheets = await own.openAll({
      asked: text,
      equipment: 'resin thin',
      'winter/cold': 'resin cold',
      rules: 'act look',
    });
    const document = sheets.get('asked');
    if (document === undefined) throw new Error('the sheet is open');
    const labels = labelsOf(itemsAt(own, document, cursor));
    expect(labels.slice(0, 3)).toEqual(['rules', 'winter/cold', 'quarrel:laminated-glass-acts']);
    expect(labels).not.toContain('equipment');
    expect(labels).not.toContain('asked');
    expect(labels).not.toContain('quarrel:laminated-glass');
  });
});

test('a keystroke waits for no check: acts are ranked by the last run', async () => {
  const source = (act: string) =>
    `${vocabulary}${inProcedure(`  step "A" { do seat-injector, tighten }\n  step "B" { do ${act}<|> }`)}`;
  const before = await world.open('typing', marked(source('draw-vacuum')).text);
  const { Checks } = world.services.quarrel.check;
  const report = Checks.of(before);
  const { text, cursor } = marked(source(''));
  const document = await world.open('typing', text);
  expect(labelsOf(itemsAt(world, document, cursor)).slice(0, 2)).toEqual(['seat-injector', 'draw-vacuum']);
  expect(Checks.latest(document)).toBe(report);
});
