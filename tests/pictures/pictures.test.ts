import { interpret } from '@quarrel/analysis';
import { parseTest } from '@quarrel/language';
import { coverageOf, type Pictured, type StepPart, supposeOf, timelineOf } from '@quarrel/pictures';
import { describe, expect, test } from 'vitest';
import { proceduresIn } from './examples.js';

const conditions = `
observation break "Break type": bullseye "Bullseye: a cone", star "Star", long-crack "Long crack"
reading glass-temperature "Glass temperature": -20 °C to 60 °C
resin thin "Thin resin" {}
resin thick "Thick resin" {}
act press "Press" {}
act cure "Cure" {}
`;

const chip = `${conditions}
procedure chip "Chip" {
  covers { break is bullseye, star
    glass-temperature from 5 °C to 35 °C }
  choose resin fill { when glass-temperature below 15 °C: thin; when break is star: thin; when break is bullseye: thick }
  stage "Look" {
    step look "Look" { observe break; takes 10 s to 20 s }
    step measure "Measure" { read glass-temperature accept 5 °C to 35 °C or else stop "Out of range."; takes 10 s }
  }
  when glass-temperature below 10 °C {
    step warm "Warm" { hold 5 min to 10 min }
    step again "Measure again" { read glass-temperature accept at least 10 °C or else stop "Too cold."; takes 10 s }
  }
  step press "Press" { do press; with fill; hold 1 min to 2 min
    meanwhile { when break is star { step rub "Rub the legs" { takes 10 s } } } }
  repeat at most 3 times until "It is full" { step more "Press more" { hold 30 s } } or else stop "It stays open."
}`;

async function pictured(text: string): Promise<Pictured> {
  const [first] = await proceduresIn(text);
  if (first === undefined) throw new Error('no procedure');
  return first;
}

async function timeline(text: string, picked: Readonly<Record<string, string | number>>) {
  const answer = timelineOf(await pictured(text), picked);
  if (answer.kind !== 'timeline') throw new Error(answer.reason);
  return answer.timeline;
}

async function coverage(text: string, question: Parameters<typeof coverageOf>[1]) {
  const answer = coverageOf(await pictured(text), question);
  if (answer.kind !== 'coverage') throw new Error(answer.reason);
  return answer.coverage;
}

describe('a situation', () => {
  test('is completed with what one would think of first', async () => {
    const { situation } = await timeline(chip, { break: 'star' });
    expect(situation.picked).toMatchObject({ break: 'star', 'glass-temperature': 303.15 });
    expect(situation.declined).toEqual([]);
  });

  test('gives up kindly what is not covered, and says what it took', async () => {
    const { situation } = await timeline(chip, { break: 'long-crack', 'glass-temperature': 273.15 });
    expect(situation.declined).toEqual([
      { condition: 'Break type', picked: 'Long crack', taken: 'Bullseye' },
      { condition: 'Glass temperature', picked: '0 °C', taken: '30 °C' },
    ]);
  });

  test('keeps what stands first where two cannot be together', async () => {
    const text = chip.replace('covers {', 'covers { break is star or glass-temperature at least 20 °C');
    const cold = { 'glass-temperature': 281.15 };
    expect((await timeline(text, { ...cold, break: 'bullseye' })).situation.picked).toMatchObject({ break: 'star' });
    expect((await timeline(text, { break: 'bullseye', ...cold })).situation.picked).toMatchObject({
      break: 'bullseye',
    });
  });

  test('passes over names and values of an earlier version of the sheet', async () => {
    const { situation } = await timeline(chip, { broken: 'star', break: 'halfmoon', 'glass-temperature': 'warm' });
    expect(situation.picked).toMatchObject({ break: 'bullseye', 'glass-temperature': 303.15 });
  });

  test('is said in words that the language reads back to the same', async () => {
    const { procedure } = await pictured(chip);
    const words = supposeOf({ break: 'star', 'glass-temperature': 281.15, other: 1 }, procedure);
    expect(words).toEqual(['glass-temperature is 8 °C', 'break is star']);
    for (const one of words) expect(parseTest(one, procedure.vocabulary).problems).toEqual([]);
  });

  test('can be picked at the values where the procedure changes', async () => {
    const { conditions: picks } = await timeline(chip, {});
    expect(picks.map(({ name, decides }) => ({ name, decides }))).toEqual([
      { name: 'glass-temperature', decides: true },
      { name: 'break', decides: true },
    ]);
    expect(picks[0]).toMatchObject({ low: -20, high: 60, step: 1, value: 30, unit: { name: '°C' } });
    expect(picks[0]?.kind === 'reading' && picks[0].thresholds.map(({ text }) => text)).toEqual([
      '5 °C',
      '10 °C',
      '15 °C',
      '35 °C',
    ]);
    expect(picks[1]).toMatchObject({
      value: 'bullseye',
      values: [
        { name: 'bullseye', label: 'Bullseye', covered: true },
        { name: 'star', covered: true },
        { name: 'long-crack', covered: false },
      ],
    });
  });
});

describe('a timeline', () => {
  test('has the steps of its situation in the shape of the procedure', async () => {
    const { parts, total, stops } = await timeline(chip, { break: 'star', 'glass-temperature': 293.15 });
    expect(parts).toMatchObject([
      {
        kind: 'stage',
        label: 'Look',
        parts: [
          { id: 'look', number: '1' },
          { id: 'measure', number: '2' },
        ],
      },
      {
        id: 'press',
        number: '3',
        start: { least: 20, most: 30 },
        end: { least: 80, most: 150 },
        hold: { least: 60, most: 120 },
        things: [{ kind: 'resin', options: [{ name: 'thin', label: 'Thin resin' }] }],
        meanwhile: [{ id: 'rub', number: '3.1', start: { least: 20, most: 30 } }],
      },
      { kind: 'repeat', atMost: 3, until: 'It is full', time: { least: 30, most: 90 }, parts: [{ id: 'more' }] },
    ]);
    expect(total).toEqual({ least: 110, most: 240 });
    expect(stops).toMatchObject([{ reason: 'It stays open.', at: { least: 170, most: 240 } }]);
  });

  test('leaves open what is looked at again on the way', async () => {
    const { parts } = await timeline(chip, { 'glass-temperature': 281.15, break: 'bullseye' });
    expect(parts).toMatchObject([
      { kind: 'stage' },
      { id: 'warm' },
      { id: 'again', stops: ['Too cold.'] },
      { id: 'press', things: [{ options: [{ name: 'thick' }, { name: 'thin' }] }], meanwhile: [] },
      { kind: 'repeat' },
    ]);
  });

  test('shows ways that the situation leaves open, each with when it is taken', async () => {
    const text = chip.replace(
      'step press',
      'when glass-temperature below 15 °C { step slow "Slow" { } }\n  step press',
    );
    const { parts } = await timeline(text, { 'glass-temperature': 281.15 });
    expect(parts[3]).toMatchObject({
      kind: 'branch',
      ways: [
        { circumstance: 'glass-temperature below 15 °C', parts: [{ id: 'slow' }] },
        { circumstance: 'glass-temperature at least 15 °C', parts: [] },
      ],
    });
  });

  test('has a finding at its step in the situations in which it happens, and in no other', async () => {
    const text = chip.replace(
      'when break is bullseye: thick',
      'when break is bullseye and glass-temperature below 30 °C: thick',
    );
    const found = async (picked: Readonly<Record<string, string | number>>) => {
      const { parts, findings } = await timeline(text, picked);
      expect(findings).toEqual([]);
      const press = parts.find((part): part is StepPart => part.kind === 'step' && part.id === 'press');
      return press?.findings.map(({ rule }) => rule);
    };
    expect(await found({ break: 'bullseye', 'glass-temperature': 304.15 })).toContain('gap-in-choice');
    expect(await found({ break: 'bullseye', 'glass-temperature': 295.15 })).not.toContain('gap-in-choice');
    expect(await found({ break: 'star', 'glass-temperature': 304.15 })).not.toContain('gap-in-choice');
  });

  test('needs no condition', async () => {
    const text = 'procedure plain "Plain" { step one "One" { hold at least 1 min } step two "Two" { takes 5 s } }';
    const { parts, conditions: picks, total } = await timeline(text, {});
    expect(picks).toEqual([]);
    expect(parts).toMatchObject([
      { id: 'one', start: { least: 0, most: 0 }, end: { least: 60 } },
      { id: 'two', start: { least: 60 } },
    ]);
    expect(total).toEqual({ least: 65 });
  });

  test('has no total where the work always stops', async () => {
    const text = 'procedure never "Never" { step one "One" { takes 5 s } stop "Refer it." step two "Two" { } }';
    const found = await timeline(text, {});
    expect(found.total).toBeUndefined();
    expect(found.parts).toMatchObject([
      { id: 'one' },
      { kind: 'stop', reason: 'Refer it.', at: { least: 5, most: 5 } },
    ]);
  });

  test('is there for one situation of a procedure that is too tangled as a whole', async () => {
    const whole = await pictured(chip);
    const interpretation = interpret(whole.procedure, undefined, { bounds: { nodes: 30, steps: 30 } });
    expect(interpretation.kind).toBe('too-tangled');
    expect(timelineOf({ ...whole, interpretation }, { break: 'star' })).toEqual(timelineOf(whole, { break: 'star' }));
    expect(coverageOf({ ...whole, interpretation }, { fixed: {} })).toMatchObject({
      kind: 'nothing',
      reason: expect.stringContaining('too tangled'),
    });
  });

  test('says so where no situation is covered', async () => {
    const nothing = await pictured(chip.replace('covers {', 'covers { glass-temperature below 0 °C'));
    expect(timelineOf(nothing, {})).toMatchObject({ kind: 'nothing', reason: expect.stringContaining('covers no') });
    expect(coverageOf(nothing, { fixed: {} })).toMatchObject({ kind: 'nothing' });
  });
});

describe('a coverage', () => {
  test('lays out what the choice asks about, and joins what comes out alike', async () => {
    const { by, choice, across, down, regions } = await coverage(chip, { fixed: {} });
    expect({ by, choice: choice?.name, across: across?.name, down: down?.name }).toEqual({
      by: 'choice',
      choice: 'fill',
      across: 'glass-temperature',
      down: 'break',
    });
    expect(across?.cells.map((cell) => cell.kind === 'stretch' && [cell.low.text, cell.high.text])).toEqual([
      ['-20 °C', '5 °C'],
      ['5 °C', '10 °C'],
      ['10 °C', '15 °C'],
      ['15 °C', '35 °C'],
      ['35 °C', '60 °C'],
    ]);
    const thin = { kind: 'choice', things: [{ name: 'thin' }], gap: false };
    const either = { kind: 'choice', things: [{ name: 'thin' }, { name: 'thick' }], gap: false };
    const thick = { kind: 'choice', things: [{ name: 'thick' }], gap: false };
    expect(regions).toMatchObject([
      { left: 0, top: 0, width: 1, height: 2, outcome: { kind: 'outside' } },
      // Warmed on the way, a bullseye can take either.
      {
        left: 1,
        width: 1,
        top: 0,
        outcome: either,
        circumstance: 'break is bullseye and glass-temperature below 10 °C',
      },
      { left: 2, width: 1, top: 0, outcome: thin },
      { left: 3, width: 1, top: 0, outcome: thick, situation: { picked: { break: 'bullseye' } } },
      { left: 4, top: 0, width: 1, height: 2, outcome: { kind: 'outside' } },
      { left: 1, width: 3, top: 1, height: 1, outcome: thin, circumstance: 'break is star' },
      { left: 0, width: 5, top: 2, outcome: { kind: 'outside' }, circumstance: 'break is long-crack' },
    ]);
  });

  test('lets other conditions be fixed, and leaves open what is not covered', async () => {
    const open = await coverage(chip, { across: 'break', by: 'time', down: 'break', fixed: {} });
    expect(open.down?.name).toBe('glass-temperature');
    const text = `${chip.replace('procedure chip', 'observation rain: yes, no\nprocedure chip').replace('stage "Look" {', 'when rain is yes { step dry "Dry" { takes 1 min } }\n  stage "Look" {')}`;
    const question = { across: 'break', down: 'glass-temperature', by: 'time' } as const;
    const total = async (fixed: Readonly<Record<string, string | number>>) => {
      const { regions, declined } = await coverage(text, { ...question, fixed });
      return { declined, outcome: regions.find(({ outcome }) => outcome.kind === 'time')?.outcome };
    };
    expect((await total({})).outcome).toMatchObject({ total: { least: 420, most: 910 } });
    expect((await total({ rain: 'no' })).outcome).toMatchObject({ total: { least: 420, most: 850 } });
    expect((await total({ rain: 'yes' })).outcome).toMatchObject({ total: { least: 480, most: 910 } });
    expect(
      (await coverage(chip, { across: 'break', down: 'broken', fixed: { 'glass-temperature': 0 } })).declined,
    ).toEqual([]);
  });

  test('counts findings where they happen', async () => {
    const text = chip.replace(
      'when break is bullseye: thick',
      'when break is bullseye and glass-temperature below 30 °C: thick',
    );
    const { regions } = await coverage(text, { by: 'findings', fixed: {} });
    const found = regions.flatMap(({ outcome, circumstance }) =>
      outcome.kind === 'findings' ? [[circumstance, outcome.count, outcome.worst]] : [],
    );
    // Two cases clash from 10 °C to 15 °C, none holds from 30 °C on; warmed on the way, a cold break can come to either.
    expect(found).toEqual([
      ['break is bullseye and glass-temperature below 10 °C', 2, 'error'],
      ['break is bullseye and glass-temperature at least 10 °C and glass-temperature below 15 °C', 1, 'error'],
      ['break is bullseye and glass-temperature at least 15 °C and glass-temperature below 30 °C', 0, undefined],
      ['break is bullseye and glass-temperature at least 30 °C', 1, 'error'],
      ['break is star', 0, undefined],
    ]);
  });

  test('has one side where there is one condition, and a single cell where there is none', async () => {
    const one = 'observation rain: yes, no\nprocedure p "P" { when rain is yes { step dry "Dry" { takes 1 min } } }';
    const narrow = await coverage(one, { fixed: {} });
    expect(narrow).toMatchObject({ by: 'time', across: { name: 'rain' } });
    expect(narrow.down).toBeUndefined();
    expect(narrow.regions).toMatchObject([
      { outcome: { total: { least: 60, most: 60 } }, circumstance: 'rain is yes' },
      { outcome: { total: { least: 0, most: 0 } } },
    ]);
    const none = await coverage('procedure p "P" { step wait "Wait" { hold at least 1 min } }', { fixed: {} });
    expect(none.across).toBeUndefined();
    expect(none.regions).toMatchObject([
      { left: 0, top: 0, width: 1, height: 1, outcome: { kind: 'time', total: { least: 60 } }, circumstance: 'always' },
    ]);
  });

  test('says where no way of doing the job comes to the end', async () => {
    const text = 'observation rain: yes, no\nprocedure p "P" { when rain is yes { stop "Wait for better weather." } }';
    const { regions } = await coverage(text, { fixed: {} });
    expect(regions.map(({ outcome }) => outcome)).toEqual([
      { kind: 'time' },
      { kind: 'time', total: { least: 0, most: 0 } },
    ]);
  });
});
