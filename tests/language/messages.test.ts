import { describe, expect, test } from 'vitest';
import { readOne, said } from './reading.js';

/** Each sheet has one fault; beside it stands all that is said about it. */
const faults: readonly (readonly [string, string])[] = [
  // Something is missing at the end of a line
  [
    'procedure p {\n  step "x" {\n    do\n  }\n}',
    '3:5 syntax: Expected the name of an act behind `do`, but found `}`.',
  ],
  [
    'procedure p {\n  step\n}',
    '2:3 syntax: Expected the text of the step in quotation marks behind `step`, but found `}`.',
  ],
  [
    'procedure p {\n  step "x" { hold }\n}',
    '2:19 syntax: Expected a number with its unit, such as `15 s` or `15 s to 30 s` here, but found `}`.',
  ],
  [
    'procedure p {\n  stop\n}',
    '2:3 syntax: Expected the reason to stop in quotation marks behind `stop`, but found `}`.',
  ],
  [
    'state s: on, off\nact a makes s',
    '2:13 syntax: Expected a state and one of its values behind `s`, but the sheet ends.',
  ],
  ['observation o: x,', '1:17 syntax: Expected a value behind `,`, but the sheet ends.'],
  ['use', '1:1 syntax: Expected the path of a sheet in quotation marks behind `use`, but the sheet ends.'],
  // Something stands where it does not belong
  [
    'procedure p {\n  stage "s" {\n    banana\n    step "x"\n  }\n}',
    '3:5 syntax: Expected a step, `stage`, `when`, `repeat`, `stop` or `}` here, but found `banana`.',
  ],
  [
    'procedure p {\n  step "x" {\n    hodl 15 s\n    note "n"\n  }\n}',
    '3:5 syntax: Expected what is done in the step (`do`, `hold`, `check`, `note` …) or `}` here, but found `hodl`. Did you mean `hold`?',
  ],
  [
    'procedure p {\n  stpe "x" { note "n" }\n}',
    '2:3 syntax: Expected a step, `stage`, `when`, `covers`, `choose` or `}` here, but found `stpe`. Did you mean `step`?',
  ],
  [
    'proceduer p {\n}\nact a',
    '1:1 syntax: Expected a declaration, such as `procedure`, `act` or `rule` here, but found `proceduer`. Did you mean `procedure`?',
  ],
  [
    'hazard h "H" dangerous',
    '1:14 syntax: Expected a signal word: `danger`, `warning`, `caution` or `notice` here, but found `dangerous`.',
  ],
  [
    'observation o: x, y\nprocedure p { step "l" { observe o } when o x { } }',
    '2:45 syntax: Expected `is`, `below`, `above`, `at most`, `at least` or `from` here, but found `x`.',
  ],
  [
    'observation o: x, y\nprocedure p { step "l" { observe o } when o is { } }',
    '2:48 syntax: Expected a value here, but found `{`.',
  ],
  [
    'reading r: 0 s to 1 s\nprocedure p { step "l" { read r } when r at 5 s { } }',
    '2:45 syntax: Expected `most` or `least` here, but found `5`.',
  ],
  ['act a\nrule r { a cmes before a }', '2:12 syntax: Expected `comes` here, but found `cmes`. Did you mean `comes`?'],
  [
    'procedure p {\n  repeat at most three times { step "x" }\n}',
    '2:18 syntax: Expected a number, as in `at most 3 times` here, but found `three`.',
  ],
  [
    'procedure p {\n  choose glue g { }\n}',
    '2:10 syntax: Expected `tool`, `resin`, `lamp`, `injector` or `consumable` here, but found `glue`.',
  ],
  ['procedure p {\n  step "x" { hold at 5 s }\n}', '2:22 syntax: Expected `least` or `most` here, but found `5`.'],
  // Braces
  [
    'procedure p {\n  stage "a" {\n    step "x" {\n      note "n"\n    step "y"\n  }\n}\nact a',
    '5:5 syntax: `}` is missing: the block that `{` opens in line 3 is not closed.',
  ],
  [
    'procedure p {\n  stage "a" {\n    step "x"\n  stage "b" {\n    step "y"\n  }\n}\nact a',
    '8:1 syntax: `}` is missing: the block that `{` opens in line 2 is not closed.',
  ],
  [
    'procedure p {\n  stage "a" {\n    step "x"\n    }\n  }\n  stage "b" { step "y" }\n}\n',
    '6:3 syntax: `stage` stands outside of the procedure "p", which has been closed above. Probably the `}` in line 4 is one too many.',
  ],
  ['procedure p {\n  step "x"\n}\n}\n', '4:1 syntax: This `}` closes nothing.'],
  ['act a { }\n}\nact b', '2:1 syntax: This `}` closes nothing.'],
  [
    'procedure p {\n  step "x"\n    note "n"\n  }\n  step "y"\n}',
    '2:8 syntax: Behind the text of a step comes `{`, then what is done in it.',
  ],
  ['procedure p {\n  stage "a"\n    step "x"\n  }\n}', '2:9 syntax: Expected `{` behind `"a"`, but found `step`.'],
  // Characters
  [
    'procedure p {\n  step "x" { hold 15 § s }\n}',
    '2:22 syntax: `§` has no meaning here. Take it out, or put it inside a text: "…".',
  ],
  ['procedure p { step name_it "x" }', '1:24 syntax: A name is written with hyphens: `name-it`, not with `_`.'],
  ["procedure p { step 'x' }", '1:20 syntax: A text stands in double quotation marks: `"…"`.'],
  [
    'procedure p {\n  step "x" { hold °C }\n}',
    '2:19 syntax: `°` belongs to a unit, and a unit stands behind a number: `20 °C`.',
  ],
  [
    'procedure p {\n  step "x {\n    note "n"\n  }\n}',
    '2:8 syntax: The text is not closed: `"` is missing at the end of this line.',
  ],
  ['procedure p {\n  step “x” { hold 5 s }\n}', '2:8 syntax: Write straight quotation marks around a text: `"…"`.'],
  ['procedure p {\n  step "x" { hold 1,5 min }\n}', '2:19 syntax: Write the number with a point: `1.5`.'],
  [
    'act a\n/* act b',
    '2:1 syntax: This comment is not closed: `*/` is missing, so all that follows is taken for a comment.',
  ],
  // Order
  ['act a\nuse "quarrel:x"\nact b', '2:1 syntax: `use` stands at the top of the sheet, before everything else.'],
];

describe('what is said about a fault', () => {
  test.each(faults)('%s', async (text, message) => {
    const { problems } = await readOne(text);
    expect(problems.filter(({ rule }) => rule === 'syntax').map(said)).toEqual([message]);
  });

  test('no message names a token or a rule of the grammar', async () => {
    for (const [text] of faults) {
      const { problems } = await readOne(text);
      for (const problem of problems) {
        if (problem.rule === 'syntax')
          expect(problem.message).not.toMatch(/\b(ID|STRING|NUMBER|UNIT|EOF|token|parser|rule [A-Z])\b/);
      }
    }
  });
});

describe('no fault is reported twice', () => {
  test('neither names that a broken line would have declared', async () => {
    const sheet = await readOne(
      'observaton o: x, y\nact\nprocedure p { step "x" { observe o; do a } when o is x { } }',
    );
    expect(sheet.problems.map(({ rule }) => rule)).toEqual(['syntax', 'syntax']);
  });

  test('nor values that have lost their name', async () => {
    const sheet = await readOne('observation o: x, "Y"\nprocedure p { step "x" { observe o } when o is y { } }');
    expect(sheet.problems.map(said)).toEqual(['1:19 syntax: Expected a value here, but found `"Y"`.']);
  });
});

describe('nesting without end', () => {
  test.each(['stage "x" { ', 'when (', 'meanwhile { '])('%s', async (opening) => {
    const deep = await readOne(`procedure p { step "x" { ${opening.repeat(20_000)}`);
    expect(deep.problems.length).toBeGreaterThan(0);
    // What comes after is read as if nothing had happened.
    const next = await readOne('procedure p { step "x" }');
    expect(next.problems).toEqual([]);
    expect(next.procedures).toHaveLength(1);
  });
});
