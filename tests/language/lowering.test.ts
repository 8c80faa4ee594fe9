import { stepsOf } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { effectKinds, first, procedureOf, readOne, said } from './reading.js';

const head = `
observation o: x, y
reading r: 0 s to 10 s
state s: off, on
act a makes s on
tool t
`;

async function stepOf(clauses: string) {
  return first(
    stepsOf(
      await procedureOf(
        `${head}procedure p { step "x" { ${clauses} } step "rest" { observe o; read r; do a; with t } }`,
      ),
    ),
  );
}

describe('steps', () => {
  test.each([
    ['do a; observe o; read r; with t', ['act', 'observe', 'read', 'with']],
    ['with t; check "seen"; do a', ['with', 'check', 'act']],
    ['do a; meanwhile { step "m" }; check "seen"', ['act', 'meanwhile', 'check']],
    ['meanwhile { step "m" }; check "seen"; do a; check "again"', ['check', 'act', 'meanwhile', 'check']],
    ['check "seen"; meanwhile { step "m" }', ['check', 'meanwhile']],
  ])('%s happens in the order of the model', async (clauses, kinds) => {
    expect(effectKinds(await stepOf(clauses))).toEqual(kinds);
  });

  test('`accept` belongs to the reading above it', async () => {
    const step = await stepOf('read r accept at most 5 s or else stop "Late."\n read r\n accept 1 s to 2 s');
    expect(step.effects).toMatchObject([
      { accept: { span: { most: { text: '5 s' } }, orElseStop: 'Late.' } },
      { accept: { span: { least: { text: '1 s' }, most: { text: '2 s' } } } },
    ]);
    const sheet = await readOne('procedure p { step "x" { accept 5 s } }');
    expect(sheet.problems.map(said)).toEqual(['1:26 syntax: `accept` stands right behind the `read` it belongs to.']);
  });

  test('everything a step can say', async () => {
    const step = await stepOf(
      'takes 10 s; hold 1 min; check "seen" confirms s on or else stop "Not seen."; caution "Hot."; note "n1"; note "n2"; photo "of it"; waive rule-x because "why"',
    );
    expect(step).toMatchObject({
      text: 'x',
      takes: { least: { si: 10 } },
      hold: { most: { si: 60 } },
      effects: [{ text: 'seen', confirms: { state: 's', value: 'on' }, orElseStop: 'Not seen.' }],
      cautions: [{ kind: 'text', text: 'Hot.' }],
      notes: ['n1', 'n2'],
      photos: ['of it'],
      waivers: [{ rule: 'rule-x', because: 'why' }],
    });
  });

  test('a step has one hold', async () => {
    const sheet = await readOne('procedure p { step "x" { hold 5 s; hold 6 s } }');
    expect(sheet.problems.map(said)).toEqual([
      '1:36 syntax: A step has one `hold`; make two steps of it, or one span.',
    ]);
    expect(first(first(sheet.procedures).body)).toMatchObject({ hold: { least: { si: 5 } } });
  });
});

describe('flow', () => {
  test('branches, repeats and stops', async () => {
    const { body } = await procedureOf(`${head}procedure p {
  step "look" { observe o; read r; do a; with t }
  when o is x { step "1" } otherwise when r below 5 s { stop "Too fast." } otherwise { step "3" }
  when o is y { step "4" }
  repeat { step "5" }
  repeat until "Done" { step "6" } or else stop "Never done."
}`);
    expect(body.slice(1)).toMatchObject([
      {
        kind: 'when',
        cases: [
          { test: { subject: 'o' }, body: [{ text: '1' }] },
          { test: { subject: 'r' }, body: [{ kind: 'stop', reason: 'Too fast.' }] },
        ],
        otherwise: [{ text: '3' }],
      },
      { kind: 'when', cases: [{ body: [{ text: '4' }] }] },
      { kind: 'repeat', body: [{ text: '5' }] },
      { kind: 'repeat', until: 'Done', orElseStop: 'Never done.' },
    ]);
    expect(body[2]).not.toHaveProperty('otherwise');
    expect(body[3]).not.toHaveProperty('atMost');
  });

  test.each([
    ['repeat at most 0 times { }', '2:16 syntax: How often is a whole number, 1 or more: `at most 3 times`.'],
    ['repeat at most 2.5 times { }', '2:16 syntax: How often is a whole number, 1 or more: `at most 3 times`.'],
    [
      'when always { } otherwise { } otherwise { }',
      '2:31 syntax: Behind `otherwise` nothing more is asked; it comes last.',
    ],
    ['revision "1"; revision "2"', '2:15 syntax: A procedure has one `revision`.'],
    ['choose tool c { otherwise: t; otherwise: t } step "x" { with c }', '2:31 syntax: A choice has one `otherwise`.'],
  ])('%s', async (text, problem) => {
    const sheet = await readOne(`tool t procedure p { step "t" { with t } \n${text} }`);
    expect(sheet.problems.map(said)).toEqual([problem]);
  });
});

describe('declarations', () => {
  test('braces are optional round what an act, a rule, a hazard or a thing says', async () => {
    const braced = await procedureOf(
      `${declared(true)} procedure p { step "x" { do fill, cure; with thin; caution uv } }`,
    );
    const bare = await procedureOf(
      `${declared(false)} procedure p { step "x" { do fill, cure; with thin; caution uv } }`,
    );
    expect(strip(bare.vocabulary)).toEqual(strip(braced.vocabulary));
    expect(braced.vocabulary.acts[1]?.needs).toHaveLength(2);
    expect(braced.vocabulary.acts[1]).toMatchObject({
      needs: [{ source: 'S1', because: 'B1' }, { rule: 'r2' }],
      makes: [{ value: 'done' }],
    });
  });

  test('a rule asks for one thing', async () => {
    const none = await readOne('act a\nrule r "R" { because "x" }');
    expect(none.problems.map(said)).toEqual([
      expect.stringContaining('2:6 syntax: The rule "r" does not say what it asks'),
    ]);
    expect(none.rules).toEqual([]);
    const two = await readOne('act a\nact b\nrule r { no a after b; no b after a; because "x" }');
    expect(two.problems.map(said)).toEqual(['3:24 syntax: A rule asks for one thing; write a second rule.']);
  });

  test('documentation is the doc comment directly above', async () => {
    const procedure = await procedureOf(`
/**
 * What is done last.
 *
 * Twice, if need be.
 */
act a
// no documentation
act b
/* nor this */
act c
procedure p {
  /** Slowly. */
  step "x" { do a, b, c }
}`);
    expect(procedure.vocabulary.acts.map(({ documentation }) => documentation)).toEqual([
      'What is done last.\n\nTwice, if need be.',
      undefined,
      undefined,
    ]);
    expect(first(stepsOf(procedure)).documentation).toBe('Slowly.');
  });

  test('labels are the names where there are none, and texts keep their quotation marks', async () => {
    const procedure = await procedureOf('act a "Say \\"ah\\" \\\\ oh"\nact b\nprocedure p { step "x" { do a, b } }');
    expect(procedure.vocabulary.acts.map(({ label }) => label)).toEqual(['Say "ah" \\ oh', 'b']);
  });
});

function declared(braces: boolean): string {
  const [open, close] = braces ? ['{', '}'] : ['', ''];
  return `state s: off, done
hazard uv warning ${open} wear "W" do "D" source "S" ${close}
act fill
act cure ${open} needs s is off source "S1" because "B1" needs s is not done as r2 because "B2" makes s done raises uv ${close}
rule order "Order" ${open} because "B" fill comes before cure severity warning source "S" ${close}
resin thin ${open} works from 5 °C to 30 °C surface-tension 33 mN/m ${close}
`;
}

function strip(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (key, part) => (key === 'range' ? undefined : part)));
}
