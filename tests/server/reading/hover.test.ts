import { beforeAll, describe, expect, test } from 'vitest';
import { createWorld, marked, type World } from '../harness.js';
import { hoverAt, hoverIn } from './asking.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
});

/** A small trade of our own, so that a test says all that it is about. */
const trade = `
/** Seen with a light behind the glass. */
observation break "Break type": bullseye "Bullseye", star "Star: fine legs", crack
reading temperature "Glass temperature": -10 °C to 60 °C
state cavity "The break inside": empty, evacuated "Under vacuum", filled
hazard uv "UV light" warning { wear "glasses"; do "Keep others away."; source "IEC 62471" }
/** With the injector. */
act draw "Draw vacuum" { makes cavity evacuated }
act press "Press resin in" {
  needs cavity is evacuated as draw-first because "Pressure alone pushes air along." source "common practice"
  makes cavity filled
  raises uv
}
rule no-late-draw "Draw no vacuum late" { no draw after press because "It pulls resin out." source "common practice" }
resin thin "Thin resin" { viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C; open-time 4 min under 1 mW/cm² }
resin thick "Thick resin" { works from 12 °C to 35 °C }
limits house "House limits" { allows break is not crack because "Cracks run on." source "the shop" }
`;

function procedure(body: string, head = ''): string {
  return `${trade}
procedure repair "Repair" {
  revision "2"
  covers { break is bullseye, star; temperature from 5 °C to 35 °C }
  choose resin fill "Filling resin" { when temperature below 12 °C: thin; otherwise: thick }
  ${head}
  stage "Look" {
    step look "Look at it" { observe break; read temperature; takes 30 s to 1 min }
  }
  stage "Fill" {
    ${body}
  }
}
`;
}

const steps = `step pull "Draw vacuum" { do draw; hold 15 s to 30 s }
    when break is star { step push "Press resin in" { caution uv; do press; with fill amount 4 to 6 drops; takes 10 s } }`;

/** What stands at the mark, which is put into the text of `sheet` right behind `before`. */
async function hoverBehind(sheet: string, before: string): Promise<string> {
  const at = sheet.indexOf(before);
  if (at < 0) throw new Error(`"${before}" is not in the sheet`);
  const end = at + before.length;
  return hoverIn(world, `${sheet.slice(0, end)}<|>${sheet.slice(end)}`);
}

describe('declarations', () => {
  test('an act: what it needs, makes and raises, and where it is done', async () => {
    expect(await hoverBehind(procedure(steps), 'do pres')).toBe(
      [
        '**Press resin in** · act `press`',
        'Needs\n- `cavity is evacuated` (`draw-first`): Pressure alone pushes air along.',
        'Makes `cavity filled`',
        'Raises WARNING UV light',
        'Done in: [Press resin in](file:///work/hovered.quarrel#L29,31)',
      ].join('\n\n'),
    );
  });

  test('an act that no step does', async () => {
    expect(await hoverBehind(procedure('step pull "Draw" { do draw }'), 'act pre')).toContain('No step here does it.');
  });

  test('an act where there is no procedure says nothing of steps', async () => {
    expect(await hoverBehind(trade, 'act dra')).toBe(
      '**Draw vacuum** · act `draw`\n\nWith the injector.\n\nMakes `cavity evacuated`',
    );
  });

  test('an observation: its values, and where it becomes known', async () => {
    expect(await hoverBehind(procedure(steps), 'when brea')).toBe(
      [
        '**Break type** · observation `break`',
        '- `bullseye` Bullseye\n- `star` Star: fine legs\n- `crack`',
        'Seen with a light behind the glass.',
        'Becomes known in: [Look at it](file:///work/hovered.quarrel#L25,10)',
      ].join('\n\n'),
    );
  });

  test('a reading: its range in both scales', async () => {
    expect(await hoverBehind(procedure(steps), 'read tempera')).toContain('-10 °C to 60 °C · 14 °F to 140 °F');
  });

  test('a value of an observation', async () => {
    expect(await hoverBehind(procedure(steps), 'when break is sta')).toBe(
      [
        '**Star: fine legs** · value of `break` `star`',
        'Other values: `bullseye`, `crack`',
        'Becomes known in: [Look at it](file:///work/hovered.quarrel#L25,10)',
      ].join('\n\n'),
    );
  });

  test('a state: its values and who makes them', async () => {
    const seen = 'step "See" { check "The cone is dark" confirms cavity filled }';
    expect(await hoverBehind(procedure(seen), 'confirms cav')).toBe(
      [
        '**The break inside** · state `cavity`',
        '- `empty`: at the start\n- `evacuated` Under vacuum: made by `draw`\n' +
          '- `filled`: made by `press`; confirmed in [See](file:///work/hovered.quarrel#L28,5)',
      ].join('\n\n'),
    );
  });

  test('a hazard: its signal word, what protects, its source', async () => {
    expect(await hoverBehind(procedure(steps), 'caution u')).toBe(
      [
        '**WARNING** **UV light** · hazard `uv`',
        '- Wear glasses\n- Keep others away.',
        'Announced in: [Press resin in](file:///work/hovered.quarrel#L29,31)',
        'Source: IEC 62471',
      ].join('\n\n'),
    );
  });

  test('limits: what they allow, and why', async () => {
    expect(await hoverBehind(procedure(steps, 'within limits house'), 'within limits hou')).toBe(
      '**House limits** · limits `house`\n\nAllows\n- `break is not crack`: Cracks run on. (the shop)',
    );
  });

  test('a resin: its datasheet, and which choice takes it when', async () => {
    expect(await hoverBehind(procedure(steps), '12 °C: thi')).toBe(
      [
        '**Thin resin** · resin `thin`',
        '| datasheet | |\n|---|---|\n| viscosity | 35 mPa·s at 20 °C, 90 mPa·s at 5 °C |\n| open-time | 4 min under 1 mW/cm² |',
        'Chosen\n- `fill` takes it when `temperature below 12 °C`',
      ].join('\n\n'),
    );
  });
});

describe('datasheets and estimates', () => {
  test('a line of a datasheet: how it is written', async () => {
    expect(await hoverIn(world, 'injector i { vac<|>uum 85 % }')).toBe(
      '`vacuum` of an injector\n\n```quarrel\nvacuum 85 %\n```',
    );
    expect(await hoverIn(world, 'injector i { col<|>our 85 % }')).toBe('');
  });

  test('what an estimate takes for granted', async () => {
    const sheet =
      'act press\nassume fil<|>ling "Filling" { during press; gap 20 µm to 30 µm because "Thin." source "the shop" }';
    expect(await hoverIn(world, sheet)).toBe(
      [
        '**Filling** · assumptions `filling`',
        'Taken for granted\n- `gap` 20 µm to 30 µm: Thin. (the shop)',
        'During `press`',
      ].join('\n\n'),
    );
  });
});

describe('rules', () => {
  test('a rule: what it asks, why, from where', async () => {
    expect(await hoverBehind(procedure(steps, 'waive no-late-draw because "x"'), 'waive no-late')).toBe(
      [
        '**Draw no vacuum late** · rule (error) `no-late-draw`',
        'Asks: `no draw after press`',
        'Because: It pulls resin out.',
        'Source: common practice',
      ].join('\n\n'),
    );
  });

  test('a need with a name of its own', async () => {
    expect(await hoverBehind(procedure(steps, 'waive draw-first because "x"'), 'waive draw-')).toBe(
      [
        '**Before press resin in** · rule (error) `draw-first`',
        '`press` needs `cavity is evacuated`',
        'Because: Pressure alone pushes air along.',
        'Source: common practice',
      ].join('\n\n'),
    );
  });

  test('a waiver: what it takes away, in the whole procedure or in its step', async () => {
    const late = 'step push "Press" { do draw, press } step pull "Draw" { do draw }';
    const taken = 'Waived here\n- ';
    expect(await hoverBehind(procedure(late, 'waive no-late-draw because "x"'), 'waive no-late')).toContain(taken);
    const here = late.replace('{ do draw }', '{ do draw; waive no-late-draw because "x" }');
    expect(await hoverBehind(procedure(here), 'waive no-late')).toContain(taken);
    const elsewhere = late.replace('{ do draw, press }', '{ do draw, press; waive no-late-draw because "x" }');
    expect(await hoverBehind(procedure(elsewhere), 'waive no-late')).not.toContain(taken);
  });

  test("a rule of Quarrel's own leads to its page", async () => {
    const text = await hoverBehind(procedure(steps, 'waive goal-never-made because "x"'), 'waive goal-');
    expect(text).toContain('rule of Quarrel');
    expect(text).toContain('[Why, and how to mend it](quarrel:/rules/goal-never-made.md)');
  });

  test('a rule of the trade leads to its page', async () => {
    const text = await hoverIn(
      world,
      'use "quarrel:laminated-glass"\nprocedure p { waive cure-after<|>-fill because "x" }',
    );
    expect(text).toContain('(quarrel:/rules/cure-after-fill.md)');
  });
});

describe('the flow', () => {
  test('a step: when it starts, where it runs, what it changes, what is in hand', async () => {
    expect(await hoverBehind(procedure(steps), 'step pus')).toBe(
      [
        '**Press resin in** · step `push`',
        'Starts at 45 s to 1 min 30 s · runs when `break is star` · takes 10 s',
        'States\n- `cavity`: `evacuated` → `filled`',
        'In hand\n- Thin resin when `temperature below 12 °C`; Thick resin when `temperature at least 12 °C`, 4 to 6 drops',
      ].join('\n\n'),
    );
  });

  test('the text of a step and the word tell the same', async () => {
    const sheet = procedure(steps);
    const byName = await hoverBehind(sheet, 'step pul');
    expect(await hoverBehind(sheet, 'step pull "Dra')).toBe(byName);
    expect(await hoverBehind(sheet, '    ste')).toContain('**Look at it** · step `look`');
  });

  test('a step of a variation, of which there is no run', async () => {
    const varied = `${procedure(steps)}variation v of repair { after step pull { step mo "More" } in step pull { hold 20 s } }`;
    expect(await hoverBehind(varied, 'step mo')).toBe('**More** · step `mo`');
    expect(await hoverBehind(varied, 'in step pul')).toContain('Starts at 30 s to 1 min');
  });

  test('states differ by situation', async () => {
    const late = `${steps}\n step last "Go on" { do draw }`;
    expect(await hoverBehind(procedure(late), 'step las')).toContain(
      '- `cavity`: `evacuated` when `break is bullseye`; `filled` when `break is star` → `evacuated`',
    );
  });

  test('a step that no situation reaches', async () => {
    const dead = 'when break is crack { step never "Wait" }';
    expect(await hoverBehind(procedure(dead), 'step nev')).toContain('No situation reaches it.');
  });

  test.each([
    ['when break is star { step "a" }', 'whe', 'Holds when `break is star`'],
    ['when break is star, bullseye { step "a" }', 'whe', '**Always** holds'],
    ['when break is crack { step "a" }', 'whe', '**Never** holds'],
    ['when break is star { step "a" } otherwise { step "b" }', 'otherwi', 'Taken when `break is bullseye`'],
    [
      'when break is star { step "a" } otherwise when temperature below 8 °C { step "b" }',
      'otherwise whe',
      'Holds when `temperature below 8 °C`',
    ],
    [
      'when break is star, bullseye { step "a" } otherwise when temperature below 8 °C { step "b" }',
      'otherwise whe',
      '**Never** asked',
    ],
    ['when break is star { step "a" }', 'when break i', 'Holds when `break is star`'],
  ])('%s', async (body, before, expected) => {
    const sheet = procedure(body);
    const start = sheet.indexOf(body);
    const at = start + body.indexOf(before) + before.length;
    expect(await hoverIn(world, `${sheet.slice(0, at)}<|>${sheet.slice(at)}`)).toContain(expected);
  });

  test('a choice: which thing in which situations', async () => {
    expect(await hoverBehind(procedure(steps), 'with fil')).toBe(
      [
        '**Filling resin** · choice of a resin `fill`',
        '- Thin resin (`thin`) when `temperature below 12 °C`\n- Thick resin (`thick`) when `temperature at least 12 °C`',
      ].join('\n\n'),
    );
  });

  test('a choice with a gap', async () => {
    const gap = procedure(steps).replace('otherwise: thick', 'when temperature above 20 °C: thick');
    expect(await hoverBehind(gap, 'with fil')).toContain('Gives nothing when `temperature from 12 °C to 20 °C`.');
  });

  test('a case of a choice', async () => {
    expect(await hoverBehind(procedure(steps), '"Filling resin" { whe')).toContain(
      'Taken when `temperature below 12 °C`',
    );
  });

  test('a stage: from when to when', async () => {
    expect(await hoverBehind(procedure(steps), 'stage "Fi')).toBe(
      '**Fill** · stage\n\nStarts at 30 s at the earliest and ends at 1 min 40 s at the latest · 2 steps',
    );
  });

  test('a repeat: its passes and their time', async () => {
    const body =
      'repeat at most 3 times until "It is full" { step "Press" { do press; hold 1 min to 2 min } } or else stop "Refer."';
    expect(await hoverBehind(procedure(body), 'repea')).toContain(
      '**1 to 3 passes** · 1 min to 6 min in all · stops without the goal after the last pass\n\nUntil: It is full',
    );
  });

  test('a procedure: its time, its findings, what it covers', async () => {
    const text = await hoverBehind(procedure(steps), 'procedure rep');
    expect(text).toContain('**Repair** · procedure, revision 2 `repair`\n\n45 s to 1 min 40 s in all · no findings');
    expect(text).toContain(
      'Covers 4 kinds of situation\n\n- `break is bullseye, star`\n- `temperature from 5 °C to 35 °C`',
    );
  });
});

describe('quantities', () => {
  test.each([
    ['hold 9<|>0 s', '**90 s** = 1 min 30 s · = 1.5 min'],
    ['hold 1 min 30 <|>s', '**1 min 30 s** = 90 s · = 1.5 min'],
    ['hold 15<|> to 30 min', '**15 min** = 900 s'],
    ['read temperature accept 3<|>5 °F to 95 °F', '**35 °F** ≈ 1.67 °C'],
    ['read temperature accept 35 °F to 95 °<|>F', '**95 °F** = 35 °C'],
    ['with fill amount 4 <|>drops', ''],
    ['hold 4<|>', ''],
  ])('%s', async (clause, expected) => {
    const sheet = procedure(`step "x" { ${clause} }`);
    expect(await hoverIn(world, sheet)).toBe(expected);
  });

  test.each([
    ['injector i { pressure 20<|>0 kPa }', '**200 kPa** = 2 bar · ≈ 29 psi · ≈ 1500 mmHg · ≈ 59.1 inHg'],
    ['injector i { pressure 3<|>0 psi }', '**30 psi** ≈ 207 kPa · ≈ 2.07 bar · ≈ 1550 mmHg · ≈ 61.1 inHg'],
    ['resin r { viscosity 3<|>5 mPa·s at 20 °C }', '**35 mPa·s** = 35 cP'],
    ['lamp l { spot 5<|>0.8 mm }', '**50.8 mm** = 5.08 cm · = 2 inch'],
    ['lamp l { irradiance 2<|>5 mW/cm² at 30 mm }', '**25 mW/cm²** = 250 W/m²'],
  ])('%s', async (sheet, expected) => {
    expect(await hoverIn(world, sheet)).toBe(expected);
  });
});

describe('sheets and words', () => {
  test('what a used sheet declares', async () => {
    await world.open('kit', 'tool probe "Probe"\ntool brush "Brush"\nhazard dust "Dust" caution');
    expect(await hoverIn(world, 'use "ki<|>t"')).toBe(
      '**Sheet** [kit](file:///work/kit.quarrel)\n\nDeclares\n- 2 tools: `probe`, `brush`\n- hazard: `dust`',
    );
  });

  test('a sheet that is not there', async () => {
    expect(await hoverIn(world, 'use "no-such<|>-sheet"')).toBe('There is no sheet at no-such-sheet.');
  });

  test('a word of the language', async () => {
    expect(await hoverIn(world, 'procedure p { step "x" { tak<|>es 10 s } }')).toBe(
      'The hands-on time of a step, from the least to the most.\n\n```quarrel\ntakes 10 s to 20 s\n```',
    );
  });

  test('nothing in comments, between words, and on signs', async () => {
    for (const source of ['// a wor<|>d', 'tool a\n<|>\ntool b', 'state s: a <|>, b']) {
      expect(await hoverIn(world, source)).toBe('');
    }
  });
});

describe('what a sheet says stays text', () => {
  test('markup in labels, reasons, texts and comments is shown as it is', async () => {
    const nasty = '<img src=x> [a](command:x) **b** `c` | ~d~ &lt; _e_';
    const shown = '\\<img src=x\\> \\[a\\](command:x) \\*\\*b\\*\\* \\`c\\` \\| \\~d\\~ \\&lt; \\_e\\_';
    const sheet = `/** ${nasty} */\nact a "${nasty}" { source "${nasty}" }`;
    expect(await hoverBehind(sheet, 'act a')).toBe(`**${shown}** · act \`a\`\n\n${shown}\n\nSource: ${shown}`);
  });

  test('the text of a step cannot leave its link', async () => {
    const sheet = procedure('step "](http://x) `" { do draw }');
    expect(await hoverBehind(sheet, 'do dra')).toContain('[\\](http://x) \\`](file:///work/hovered.quarrel#');
  });
});

test('a sheet that ships tells of itself', async () => {
  const acts = world.sheet('quarrel:laminated-glass-acts');
  const text = acts.textDocument.getText();
  const position = acts.textDocument.positionAt(text.indexOf('act cure ') + 5);
  expect(await hoverAt(world, acts, position)).toContain('**Cure the resin** · act `cure`');
  const states = world.sheet('quarrel:laminated-glass-states');
  const seal = states.textDocument.positionAt(states.textDocument.getText().indexOf('state seal') + 7);
  expect(await hoverAt(world, states, seal)).toContain('`tight` Tight: made by `seal`');
});

test('a mark in a text is found where it stands', () => {
  expect(marked('ab\nc<|>d').cursor).toEqual({ line: 1, character: 1 });
});
