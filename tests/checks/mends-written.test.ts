import { checkSheets } from '@quarrel/checks';
import { formatText } from '@quarrel/language';
import { describe, expect, test } from 'vitest';
import { applied } from './applied.js';
import type { Style } from './mended.js';
import { read } from './reading.js';

const head = `observation break: bullseye, star, combination
observation zone: driver-view, elsewhere
reading glass-temperature: 0 °C to 40 °C
state seal: off, seated
state cavity: empty, wetted, filled
hazard uv "UV light" warning
hazard resin-on-skin "Uncured resin" caution
act seat-injector "Seat the injector" { makes seal seated }
act fill { needs seal is seated; makes cavity wetted; raises resin-on-skin }
act cure { needs cavity is filled; raises uv }
act press
rule press-long-enough { hold of press at least 1 min; because "Cold resin is slow." }
rule press-not-for-ever { hold of press at most 5 min; because "Resin creeps past the seal." }
rule fill-then-press { after fill, press follows; because "Air stays otherwise." }
resin thin
resin medium
resin the-resin-for-the-warm-season

`;

/** The lines of the procedure that a mend takes out and puts in. */
async function changed(procedure: string, rule: string, title: string, style: Style = 'formatted') {
  const sheet = `${head}${procedure}`;
  expect(formatText(sheet).text, 'is in the house style').toBe(sheet);
  const { findings } = checkSheets(await read({ sheet }));
  const mends = findings.filter((finding) => finding.rule === rule).flatMap((finding) => finding.mends);
  const mend = mends.find((one) => one.title === title);
  expect(mends.map((one) => one.title)).toContain(title);
  const { sheet: after = '' } = applied({ sheet }, mend?.edits ?? []);
  expect(formatText(after).problems).toEqual([]);
  if (style === 'formatted') expect(formatText(after).text).toBe(after);
  return difference(sheet.split('\n'), after.split('\n'));
}

function difference(old: readonly string[], now: readonly string[]): readonly string[] {
  let same = 0;
  while (same < now.length && old[same] === now[same]) same += 1;
  let end = 0;
  while (end < Math.min(old.length, now.length) - same && old.at(-1 - end) === now.at(-1 - end)) end += 1;
  return [
    ...old.slice(same, old.length - end).map((line) => `- ${line}`),
    ...now.slice(same, now.length - end).map((line) => `+ ${line}`),
  ];
}

describe('what a mend writes', () => {
  test('a step with the cautions of its act, only in the situations that lack it', async () => {
    const procedure = `procedure chip {
  step "Look" { observe break }
  when break is star {
    step "Seat" { do seat-injector }
  }
  /** Slowly. */
  step "Fill" { caution resin-on-skin; do fill }
  step "Press" { do press; hold 1 min }
}
`;
    expect(await changed(procedure, 'unmet-need', 'Do seat-injector before this step in these situations')).toEqual([
      '+   when break is bullseye, combination {',
      '+     step "Seat the injector" { do seat-injector }',
      '+   }',
    ]);
  });

  test('a step before one with a doc comment stands before the comment', async () => {
    const procedure = `procedure chip {
  covers { break is star }

  /** Slowly. */
  step "Fill" { caution resin-on-skin; do fill }
  step "Press" { do press; hold 1 min }
}
`;
    expect(await changed(procedure, 'unmet-need', 'Do seat-injector before this step')).toEqual([
      '+   step "Seat the injector" { do seat-injector }',
    ]);
  });

  test('a step behind another, with the hold that rules ask of its act, before the comment of the next', async () => {
    const procedure = `procedure chip {
  step "Seat" { do seat-injector } // By hand.
  step "Fill" { caution resin-on-skin; do fill } // Drop by drop.
  // Nothing is left to do.
}
`;
    expect(await changed(procedure, 'fill-then-press', 'Do press behind this step')).toEqual([
      '-   step "Fill" { caution resin-on-skin; do fill } // Drop by drop.',
      '+   step "Fill" { caution resin-on-skin; do fill }',
      '+   step "Press" { do press; hold 1 min to 5 min } // Drop by drop.',
    ]);
  });

  test('on the line of a block that stands on one, which the formatter then folds', async () => {
    const procedure = `procedure chip {
  caution resin-on-skin
  step "W" { meanwhile { step "F" { do fill } } }
  step "Press" { do press; hold 1 min }
}
`;
    expect(await changed(procedure, 'unmet-need', 'Do seat-injector before this step', 'readable')).toEqual([
      '-   step "W" { meanwhile { step "F" { do fill } } }',
      '+   step "W" { meanwhile { step "Seat the injector" { do seat-injector }; step "F" { do fill } } }',
    ]);
  });

  test('a look where no act makes what is needed', async () => {
    const procedure = `procedure chip {
  step "Seat" { do seat-injector }
  step "Fill" { caution resin-on-skin; do fill }
  step "Press" { do press; hold 1 min }
  step "Cure" { caution uv; do cure }
}
`;
    expect(await changed(procedure, 'unmet-need', 'Look for cavity filled before this step')).toEqual([
      '+   step "Look before going on" {',
      '+     check "Say what must be seen" confirms cavity filled or else stop "Say why the work stops here."',
      '+   }',
    ]);
  });

  test('a caution in a step on several lines, or at the top behind what is covered', async () => {
    const procedure = `procedure chip {
  covers { break is star }
  step "Seat" { do seat-injector }
  step "Fill" {
    do fill
    takes 1 min
  }
  step "Press" { do press; hold 1 min }
}
`;
    expect(await changed(procedure, 'hazard-unannounced', 'Add caution resin-on-skin to this step')).toEqual([
      '+     caution resin-on-skin',
    ]);
    expect(
      await changed(procedure, 'hazard-unannounced', 'Add caution resin-on-skin at the top of the procedure'),
    ).toEqual(['+   caution resin-on-skin']);
  });

  test('a case for each way in which the missing situations come about, folded where it is long', async () => {
    const procedure = `procedure chip {
  choose resin fill-with {
    when break is star and zone is driver-view: thin
    when break is bullseye and glass-temperature from 10 °C to 30 °C and zone is elsewhere: medium
  }
  step "Look and read" { observe break, zone; read glass-temperature }
  step "Take resin" { with fill-with }
}
`;
    expect(await changed(procedure, 'gap-in-choice', 'Add cases for the missing situations, with thin')).toEqual([
      '+     when break is bullseye, combination and zone is driver-view: thin',
      '+     when break is star, combination and zone is elsewhere: thin',
      '+     when break is bullseye, combination and glass-temperature below 10 °C: thin',
      '+     when break is bullseye, combination and glass-temperature above 30 °C: thin',
    ]);
    const named = formatText(procedure.replace(': medium', ': the-resin-for-the-warm-season')).text;
    const title = 'Add cases for the missing situations, with the-resin-for-the-warm-season';
    expect((await changed(named, 'gap-in-choice', title)).slice(2)).toEqual([
      '+     when break is bullseye, combination',
      '+       and glass-temperature below 10 °C: the-resin-for-the-warm-season',
      '+     when break is bullseye, combination',
      '+       and glass-temperature above 30 °C: the-resin-for-the-warm-season',
    ]);
  });

  test('a line of covers that leaves situations out, where there is none yet and behind those there are', async () => {
    const body = `  step "Look" { observe break, zone }
  when break is star {
    stop "Refer the glass."
  }
  step "Take resin" { with thin }
}
`;
    const title = 'Leave these situations out of "covers"';
    const rule = 'covers-but-always-stops';
    const one = `procedure chip {\n  covers { break is not combination }\n${body}`;
    expect(await changed(one, rule, title)).toEqual([
      '-   covers { break is not combination }',
      '+   covers { break is not combination; break is bullseye }',
    ]);
    const more = `procedure chip {\n  covers {\n    break is not combination\n    zone is elsewhere\n  }\n${body}`;
    expect(await changed(more, rule, title)).toEqual(['+     break is bullseye']);
  });

  test('a hold, where there is none and where it is too short', async () => {
    const procedure = `procedure chip {
  step "Press" { do press }
  step "Press again" {
    do press
    hold 30 s to 45 s
  }
}
`;
    expect(await changed(procedure, 'press-long-enough', 'Add hold 1 min')).toEqual([
      '-   step "Press" { do press }',
      '+   step "Press" { do press; hold 1 min }',
    ]);
    expect(await changed(procedure, 'press-long-enough', 'Hold 1 min')).toEqual([
      '-     hold 30 s to 45 s',
      '+     hold 1 min',
    ]);
  });

  test('the name that a misspelt waiver means, among what is found where it stands', async () => {
    const procedure = `procedure chip {
  step "Wait" { hold at least 1 min; waive hold-without-limt because "The gauge is watched." }
}
`;
    expect(await changed(procedure, 'stale-waiver', 'Write hold-without-limit')).toEqual([
      '-   step "Wait" { hold at least 1 min; waive hold-without-limt because "The gauge is watched." }',
      '+   step "Wait" { hold at least 1 min; waive hold-without-limit because "The gauge is watched." }',
    ]);
  });

  test('nothing where a case stood, on the line of the others', async () => {
    const procedure = `procedure chip {
  covers { break is star, combination }
  choose resin gap { when break is bullseye: thin; when break is star: medium; otherwise: thin }
  step "Look" { observe break }
  step "Take resin" { with gap }
}
`;
    expect(await changed(procedure, 'dead-case', 'Take the case away')).toEqual([
      '-   choose resin gap { when break is bullseye: thin; when break is star: medium; otherwise: thin }',
      '+   choose resin gap { when break is star: medium; otherwise: thin }',
    ]);
  });
});

describe('a step split where its hold turns too short', () => {
  const declared = `reading glass: -10 °C to 40 °C
act press-resin
hazard resin-on-skin "Uncured resin" caution
assume glass { temperature glass }
assume filling { during press-resin; gap 3 µm; length 20 mm }
resin thin { viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C; surface-tension 33 mN/m }
injector small { pressure 200 kPa }

`;

  async function split(steps: string, header = 'covers { glass from 5 °C to 30 °C }') {
    const sheet = `${declared}procedure chip {\n  ${header}\n\n${steps}}\n`;
    expect(formatText(sheet).text, 'is in the house style').toBe(sheet);
    const { findings } = checkSheets(await read({ sheet }));
    const found = findings.filter(({ rule }) => rule === 'hold-shorter-than-fill');
    expect(found.length).toBe(1);
    const mend = found[0]?.mends.find(({ title }) => title.endsWith(' only'));
    if (mend === undefined) return undefined;
    const { sheet: after = '' } = applied({ sheet }, mend.edits);
    expect(formatText(after)).toEqual({ text: after, problems: [] });
    const left = checkSheets(await read({ sheet: after })).findings.map(({ rule }) => rule);
    expect(left.filter((rule) => rule !== 'unused-declaration')).toEqual([]);
    return [mend.title, ...difference(sheet.split('\n'), after.split('\n'))];
  }

  const known = '  step "Read" { read glass }\n  step "Take the resin" { with thin }\n';

  test('of one line, without its name, with a comment behind it', async () => {
    expect(
      await split(`${known}  step press "Press" { do press-resin; with small; hold 1 min to 2 min } // slowly\n`),
    ).toEqual([
      'Hold 1 min 49 s below 14.16 °C only',
      '-   step press "Press" { do press-resin; with small; hold 1 min to 2 min } // slowly',
      '+   when glass below 14.16 °C {',
      '+     step "Press, cold" { do press-resin; with small; hold 1 min 49 s to 2 min }',
      '+   } otherwise {',
      '+     step press "Press" { do press-resin; with small; hold 1 min to 2 min }',
      '+   } // slowly',
    ]);
  });

  test('of many lines: what it does, warns of and notes comes along; remarks stay with the step', async () => {
    expect(
      await split(
        `${known}  step "Press resin in and watch the legs" {
    caution resin-on-skin
    caution "Mind the \\"ring\\"."
    do press-resin
    with small
    // Slowly at first.
    with thin amount 2 to 3 drops
    takes 10 s to 20 s
    hold at least 1 min
    check "The legs are full" or else stop "They are not."
    note "Longer does no harm."
  }
  step "Look" { note "Well." }
`,
        'covers { glass from 5 °C to 30 °C }\n  waive hold-without-limit because "The legs are watched."',
      ),
    ).toEqual([
      'Hold 1 min 49 s below 14.16 °C only',
      '-   step "Press resin in and watch the legs" {',
      '-     caution resin-on-skin',
      '-     caution "Mind the \\"ring\\"."',
      '-     do press-resin',
      '-     with small',
      '-     // Slowly at first.',
      '-     with thin amount 2 to 3 drops',
      '-     takes 10 s to 20 s',
      '-     hold at least 1 min',
      '-     check "The legs are full" or else stop "They are not."',
      '-     note "Longer does no harm."',
      '+   when glass below 14.16 °C {',
      '+     step "Press resin in and watch the legs, cold" {',
      '+       caution resin-on-skin',
      '+       caution "Mind the \\"ring\\"."',
      '+       do press-resin',
      '+       with small',
      '+       with thin amount 2 drops to 3 drops',
      '+       check "The legs are full" or else stop "They are not."',
      '+       takes 10 s to 20 s',
      '+       hold at least 1 min 49 s',
      '+       note "Longer does no harm."',
      '+     }',
      '+   } otherwise {',
      '+     step "Press resin in and watch the legs" {',
      '+       caution resin-on-skin',
      '+       caution "Mind the \\"ring\\"."',
      '+       do press-resin',
      '+       with small',
      '+       // Slowly at first.',
      '+       with thin amount 2 to 3 drops',
      '+       takes 10 s to 20 s',
      '+       hold at least 1 min',
      '+       check "The legs are full" or else stop "They are not."',
      '+       note "Longer does no harm."',
      '+     }',
    ]);
  });

  test.each([
    [
      'where the temperature is not known yet',
      '  step "Press" { do press-resin; with small; with thin; hold 1 min }\n',
    ],
    [
      'of a step with a doc comment',
      `${known}  /** Slowly. */\n  step "Press" { do press-resin; with small; hold 1 min }\n`,
    ],
    [
      'of a step that finds something out',
      `${known}  step "Press" { read glass; do press-resin; with small; hold 1 min }\n`,
    ],
    [
      'of a step that waives something',
      `${known}  step "Press" {
    do press-resin
    with small
    hold 1 min
    waive hold-without-limit because "It is short."
  }\n`,
    ],
    [
      'where the hold is only known to be too short',
      `${known}  step "Press" { do press-resin; with small; hold 1 min }\n`,
      'covers { glass from -10 °C to 30 °C }',
    ],
    ['in a block of one line', `${known}  stage "Fill" { step "Press" { do press-resin; with small; hold 1 min } }\n`],
  ])('not %s', async (_, steps, header?: string) => {
    expect(await split(steps, header)).toBeUndefined();
  });
});
