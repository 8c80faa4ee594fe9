import { stepsOf } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { allSteps, first, procedureOf, readOne, readShop, said } from './reading.js';

describe('words of the language as names', () => {
  test('they are names wherever a name has to stand', async () => {
    const procedure = await procedureOf(`
observation stop "Stop": hold, step, when "When"
observation end: observe, the
reading read: 0 s to 10 s
state state: off, on
hazard hazard warning
act hold { needs state is off as rule because "x" makes state on raises hazard }
act do needs stop is hold because "y"
rule act { hold comes before do because "z" }
rule no { after hold, do follows within 5 s because "z" }
rule hold { hold of hold at least 2 s when stop is not when because "z" }
rule at-end { at the end state is on because "z" }
tool tool
resin with
resin amount
limits limits { allows read at most 5 s }
procedure procedure "P" {
  within limits limits
  covers { stop is hold, step }
  choose resin resin { when stop is hold: with; otherwise: amount }
  step step "Look" { observe stop, end; read read; do hold; do do; with tool; with resin amount 3 drops; caution hazard }
  repeat at most 2 times until "Done" confirms state on { step repeat "Again" }
}`);
    expect(stepsOf(procedure).map(({ id }) => id)).toEqual(['step', 'repeat']);
    expect(procedure.vocabulary.acts.map(({ name }) => name)).toEqual(['hold', 'do']);
    expect(stepsOf(procedure)[0]?.effects).toMatchObject([
      { condition: 'stop' },
      { condition: 'end' },
      { condition: 'read' },
      { act: 'hold' },
      { act: 'do' },
      { thing: 'tool', isChoice: false },
      { thing: 'resin', isChoice: true, amount: { least: { text: '3 drops' } } },
    ]);
  });

  test('a name is sought on its own line, so that a line cut short does not swallow the next', async () => {
    const sheet = await readOne('act hold\nprocedure p {\n  step "x" {\n    do\n    hold 15 s\n  }\n}');
    expect(sheet.problems.map(said)).toEqual([
      '4:5 syntax: Expected the name of an act behind `do`, but found `hold`.',
    ]);
    expect(first(sheet.procedures).body).toMatchObject([{ hold: { least: { text: '15 s' } } }]);
  });

  test('names may have letters of any script, digits and hyphens', async () => {
    const procedure = await procedureOf(
      'act dünn-2 "Dünn"\nact us-393-60\nact шаг\nprocedure p { step größe "x" { do dünn-2, us-393-60, шаг } }',
    );
    expect(procedure.vocabulary.acts.map(({ name }) => name)).toEqual(['dünn-2', 'us-393-60', 'шаг']);
    expect(first(stepsOf(procedure)).id).toBe('größe');
  });
});

describe('where names are looked for', () => {
  test('values belong to their own declaration, steps and choices to their procedure', async () => {
    const sheet = await readOne(`
observation a: yes, no
observation b: yes, maybe
state s: no, done
act x makes s done
resin thin
procedure one {
  choose resin fill { otherwise: thin }
  step look "Look" { observe a, b; with fill; do x }
  when a is yes and b is yes { step "Same" }
}
procedure two {
  choose resin fill { otherwise: thin }
  step look "Look" { observe a, b; with fill }
  when a is maybe { step "Wrong" }
}
`);
    expect(sheet.problems.map(said)).toEqual(['15:13 unknown-name: value of a maybe -> ']);
  });

  test.each([
    ['do curr', 17, 'act curr -> cure'],
    ['do break', 17, 'act break -> '],
    ['observe temperature', 22, 'observation temperature -> '],
    ['read break', 19, 'reading break -> '],
    ['with thn', 19, 'tool, resin, lamp, injector or consumable thn -> thin'],
    ['caution ub', 22, 'hazard ub -> uv'],
    ['check "x" confirms cavty cured', 33, 'state cavty -> cavity'],
    ['check "x" confirms cavity curd', 40, 'value of cavity curd -> cured'],
  ])('%s', async (clause, column, problem) => {
    const sheet = await readOne(`
observation break: star, bullseye
reading temperature: 0 °C to 10 °C
state cavity: empty, cured
hazard uv warning
act cure makes cavity cured raises uv
resin thin
procedure p {
  step "All" { observe break; read temperature; do cure; with thin; caution uv }
  step "x" { ${clause} }
}`);
    expect(sheet.problems.map(said)).toEqual([`10:${column} unknown-name: ${problem}`]);
  });

  test('what is waived is left to the checks, which know every rule', async () => {
    const procedure = await procedureOf(
      'procedure p { waive gap-in-choice because "x" step "y" { waive nothing-at-all } }',
    );
    expect(procedure.waivers).toMatchObject([{ rule: 'gap-in-choice', because: 'x' }]);
    expect(first(stepsOf(procedure)).waivers).toMatchObject([{ rule: 'nothing-at-all' }]);
  });
});

describe('names given twice', () => {
  test.each([
    ['observation a: x, y\nreading a: 0 s to 1 s', '2:9 name-clash: observation a <- main.quarrel:1'],
    ['observation a: x, y\nstate a: x, y', '2:7 name-clash: observation a <- main.quarrel:1'],
    ['act a\nact a', '2:5 name-clash: act a <- main.quarrel:1'],
    ['hazard a danger\nhazard a notice', '2:8 name-clash: hazard a <- main.quarrel:1'],
    ['tool a\nlamp a', '2:6 name-clash: tool a <- main.quarrel:1'],
    ['limits a { }\nlimits a { }', '2:8 name-clash: limits a <- main.quarrel:1'],
    ['procedure a { }\nprocedure a { }', '2:11 name-clash: procedure a <- main.quarrel:1'],
    [
      'act x\nact y needs s is on as a\nrule a { no x after y }\nstate s: on, off',
      '3:6 name-clash: rule a <- main.quarrel:2',
    ],
    ['observation a: x, y, x', '1:22 name-clash: value x <- main.quarrel:1'],
    ['procedure p {\n step a "x"\n step a "y"\n}', '3:7 name-clash: step a <- main.quarrel:2'],
    [
      'resin a\nprocedure p { choose resin a { otherwise: a } step "x" { with a } }',
      '2:28 name-clash: resin a <- main.quarrel:1',
    ],
  ])('%s', async (text, problem) => {
    expect((await readOne(text)).problems.map(said)).toContain(problem);
  });

  test.each([
    'act a\ntool a\nhazard a danger\nlimits a { }\nstate a: a, b',
    'procedure p { step a "x" }\nprocedure q { step a "x" }',
  ])('no clash across groups: %s', async (text) => {
    expect((await readOne(text)).problems.filter(({ rule }) => rule === 'name-clash')).toEqual([]);
  });

  test('the first of two counts, once', async () => {
    const sheet = await readOne(
      'observation a: x, y\nobservation a: z, w\nprocedure p { step "l" { observe a } when a is x { } }',
    );
    expect(sheet.problems.map(said)).toEqual([
      '2:13 name-clash: observation a <- main.quarrel:1',
      '2:13 unused-declaration: observation a',
    ]);
    expect(first(sheet.procedures).vocabulary.observations.map(({ values }) => values[0]?.name)).toEqual(['x']);
  });
});

describe('step ids', () => {
  test('are names, or come from the text, and are unique', async () => {
    const sheet = await readOne(`procedure p {
  step "Draw vacuum"
  step draw-vacuum "Draw"
  step "Draw vacuum!"
  step "Über die Größe: 5 °C — à la carte"
  step "A text that is a good deal longer than forty characters in all"
  step "Pneumonoultramicroscopicsilicovolcanoconiosis is one word"
  step "…"
  step "…"
}`);
    expect(allSteps(sheet).map(({ id }) => id)).toEqual([
      'draw-vacuum-2',
      'draw-vacuum',
      'draw-vacuum-3',
      'uber-die-grosse-5-c-a-la-carte',
      'a-text-that-is-a-good-deal-longer-than',
      'pneumonoultramicroscopicsilicovolcanocon',
      'step',
      'step-2',
    ]);
  });
});

describe('what nobody uses', () => {
  const declarations = `observation o: x, y
reading r: 0 s to 1 s
state s: a, b
hazard h warning
act a
tool t
resin re
lamp la
injector i
consumable c
limits li { }
rule ru { no a after a because "only rules speak of it" }
`;

  test('is reported in a sheet with a procedure, each thing by its kind', async () => {
    const sheet = await readOne(`${declarations}procedure p { choose resin f { otherwise: re } step "x" }`);
    expect(sheet.problems.map(said)).toEqual([
      '1:13 unused-declaration: observation o',
      '2:9 unused-declaration: reading r',
      '3:7 unused-declaration: state s',
      '4:8 unused-declaration: hazard h',
      '6:6 unused-declaration: tool t',
      '8:6 unused-declaration: lamp la',
      '9:10 unused-declaration: injector i',
      '10:12 unused-declaration: consumable c',
      '11:8 unused-declaration: limits li',
      '13:28 unused-declaration: choice of a resin f',
    ]);
  });

  test('is no finding in a sheet that only declares, nor where another sheet uses it', async () => {
    expect((await readOne(declarations)).problems).toEqual([]);
    const { sheets, others } = await readShop({
      'main.quarrel': 'use "other"\nprocedure q { step "x" { do a } }',
      'other.quarrel': 'act a\nprocedure p { step "x" }',
    });
    expect([...sheets, ...others].flatMap(({ problems }) => problems)).toEqual([]);
  });
});
