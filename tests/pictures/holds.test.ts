import { type Holds, holdsOf, type Need, type NeedPoint } from '@quarrel/pictures';
import { celsius, degrees, legTime, si, type ViscosityCurve, viscosityAt, viscosityCurve } from '@quarrel/process';
import { describe, expect, test } from 'vitest';
import { examplesIn, proceduresIn } from './examples.js';

/** A small trade of our own, so that every number of a test stands in it. */
const trade = `
observation break "Break type": bullseye, star
reading temperature "Glass temperature": -20 °C to 60 °C
state cavity: empty, filled
act press "Press resin in" { makes cavity filled }
resin thin "Thin resin" { viscosity 20 mPa·s at 20 °C, 45 mPa·s at 5 °C; surface-tension 33 mN/m }
resin thick "Thick resin" { viscosity 90 mPa·s at 20 °C, 210 mPa·s at 5 °C }
resin blank "Resin without a datasheet"
resin single "Resin with one value" { viscosity 40 mPa·s at 20 °C }
injector small { pressure 200 kPa }
assume glass { temperature temperature }
assume filling {
  during press
  gap 3 µm because "As the trade has it." source "ours"
  length 20 mm
  length 10 mm when break is bullseye
}
`;

function repair(steps: string, choice = 'when break is star: thin; otherwise: thick', head = trade): string {
  return `${head}
procedure repair "Repair" {
  covers { temperature from 5 °C to 40 °C }
  choose resin fill { ${choice} }
  step look "Look" { observe break; read temperature }
  ${steps}
}
`;
}

const press = (id: string, hold: string): string =>
  `step ${id} "Press ${id}" { do press with small; with fill; hold ${hold} }`;

async function holdsIn(text: string, step?: string): Promise<Holds> {
  const [first] = await proceduresIn(text);
  if (first === undefined) throw new Error('no procedure');
  const found = holdsOf(first, step === undefined ? {} : { step });
  if (found.kind === 'nothing') throw new Error(found.reason);
  return found.holds;
}

async function reasonIn(text: string): Promise<string> {
  const [first] = await proceduresIn(text);
  if (first === undefined) throw new Error('no procedure');
  const found = holdsOf(first, {});
  return found.kind === 'nothing' ? found.reason : '';
}

function curveThrough(...points: readonly (readonly [degrees: number, mPas: number])[]): ViscosityCurve {
  const curve = viscosityCurve(
    points.map(([at, mPas]) => ({ temperature: celsius(at), viscosity: si(mPas / 1000, 'viscosity') })),
  );
  if (curve.kind !== 'value') throw new Error('no curve');
  return curve.value;
}

/** The need straight from the physics, of a leg of so many metres. */
function needed(curve: ViscosityCurve, surfaceTension: number, metres: number, kelvin: number): number {
  const viscosity = viscosityAt(curve, si(kelvin, 'temperature'));
  if (viscosity.kind !== 'value') throw new Error('no viscosity');
  const leg = { gap: si(3e-6, 'length'), length: si(metres, 'length'), contactAngle: degrees(0) };
  const liquid = { viscosity: viscosity.value, surfaceTension: si(surfaceTension, 'surface-tension') };
  const time = legTime(leg, liquid, si(200_000, 'pressure'));
  if (time.kind !== 'value') throw new Error('no time');
  return time.value;
}

const thin = curveThrough([20, 20], [5, 45]);
const thick = curveThrough([20, 90], [5, 210]);

function pointsOf({ parts }: Need): readonly NeedPoint[] {
  return parts.flatMap(({ points }) => points);
}

const half = si(0.5, 'temperature');

describe('lines', () => {
  test('every point is what the physics says, and straight lines between them are true to a thousandth', async () => {
    const { needs } = await holdsIn(repair(press('first', '30 s to 1 min')));
    expect(needs.map(({ resin, length }) => `${resin.name} ${length}`)).toEqual(['thin 20 mm', 'thick 10 mm']);
    for (const [need, curve, tension, metres] of [
      [needs[0], thin, 0.033, 0.02],
      [needs[1], thick, 0, 0.01],
    ] as const) {
      const points = need === undefined ? [] : pointsOf(need);
      expect(points.length).toBeGreaterThan(40);
      for (const { temperature, seconds } of points) {
        expect(seconds).toBeCloseTo(needed(curve, tension, metres, temperature), 9);
      }
      for (const [index, to] of points.entries()) {
        const from = points[index - 1];
        if (from === undefined || from.temperature === to.temperature) continue;
        expect(to.temperature - from.temperature).toBeLessThanOrEqual(half + 1e-9);
        const exact = needed(curve, tension, metres, (from.temperature + to.temperature) / 2);
        expect(Math.abs(Math.sqrt(from.seconds * to.seconds) / exact - 1)).toBeLessThan(1e-3);
      }
    }
  });

  test('they reach as far as the datasheet tells, and say where they go beyond its points', async () => {
    const { needs } = await holdsIn(repair(press('first', '30 s')));
    const [need] = needs;
    const ends = need?.parts.map(({ points, doubts }) => [
      points[0]?.temperature,
      points.at(-1)?.temperature,
      ...doubts,
    ]);
    expect(ends).toEqual([
      [celsius(5), celsius(20)],
      [celsius(20), celsius(30), 'warmer-than-data'],
    ]);
    expect(need?.untold).toEqual([{ low: celsius(30), high: celsius(40) }]);
    expect(need?.data).toEqual({ low: celsius(5), high: celsius(20) });
  });

  test('a resin is drawn where it is taken in hand', async () => {
    const choice = 'when temperature below 12 °C: thin; otherwise: thick';
    const { needs } = await holdsIn(repair(press('first', '30 s'), choice));
    const used = needs.map((need) => {
      const points = pointsOf(need);
      return [need.resin.name, need.circumstance, points[0]?.temperature, points.at(-1)?.temperature];
    });
    expect(used).toEqual([
      ['thin', 'break is star and temperature below 12 °C', celsius(5), celsius(12)],
      ['thin', 'break is bullseye and temperature below 12 °C', celsius(5), celsius(12)],
      ['thick', 'break is star and temperature at least 12 °C', celsius(12), celsius(30)],
      ['thick', 'break is bullseye and temperature at least 12 °C', celsius(12), celsius(30)],
    ]);
  });

  test('round temperatures are told as well, in the unit of the reading', async () => {
    const { needs, scales } = await holdsIn(repair(press('first', '30 s')));
    expect(scales.temperature.marks).toEqual(
      [5, 10, 15, 20, 25, 30, 35, 40].map((at) => expect.closeTo(at + 273.15, 9)),
    );
    expect(needs[0]?.atMarks.map(({ seconds }) => seconds)).toEqual(
      [5, 10, 15, 20, 25, 30].map((at) => expect.closeTo(needed(thin, 0.033, 0.02, celsius(at)), 6)),
    );
    const inFahrenheit = trade.replace('-20 °C to 60 °C', '0 °F to 140 °F');
    const { scales: other, reading } = await holdsIn(repair(press('first', '30 s'), undefined, inFahrenheit));
    expect(reading.unit.name).toBe('°F');
    const marks = other.temperature.marks.map((kelvin) => kelvin / reading.unit.factor - reading.unit.offset);
    expect(marks).toEqual([50, 60, 70, 80, 90, 100].map((at) => expect.closeTo(at, 9)));
  });

  test('one viscosity is the same at every temperature, and says on which side it is a bound', async () => {
    const { needs } = await holdsIn(repair(press('first', '30 s'), 'otherwise: single'));
    const [need] = needs;
    expect(need?.parts.map(({ doubts }) => doubts)).toEqual([['single-point-colder'], ['single-point-warmer']]);
    expect(new Set(need === undefined ? [] : pointsOf(need).map(({ seconds }) => seconds)).size).toBe(1);
  });
});

describe('one fill in several situations', () => {
  test('is one line, and one row beside each hold', async () => {
    const head = trade.replace('length 10 mm when break is bullseye', 'length 20 mm when break is bullseye');
    const { needs, presses } = await holdsIn(repair(press('first', '30 s'), 'otherwise: thin', head));
    expect(needs.map(({ circumstance }) => circumstance)).toEqual(['always']);
    expect(presses[0]?.against.map(({ need, short }) => [need, short])).toEqual([[0, 'below']]);
  });
});

describe('turning points', () => {
  test('need and hold are as long there, and colder the need is longer', async () => {
    const { presses } = await holdsIn(repair(press('first', '30 s to 1 min')));
    const [star] = presses[0]?.against ?? [];
    expect(star).toMatchObject({ short: 'below', isOutlasted: false, turn: { isExact: true } });
    const at = star?.turn?.at ?? 0;
    expect(needed(thin, 0.033, 0.02, at)).toBeCloseTo(30, 6);
    expect(needed(thin, 0.033, 0.02, at - 0.01)).toBeGreaterThan(30);
    expect(Number.parseFloat(star?.turn?.text ?? '')).toBeCloseTo(Math.floor((at - 273.15) * 100) / 100, 9);
  });

  test.each([
    ['55 s', 'nowhere'],
    ['20 s', 'below'],
    ['2 s', 'below'],
  ])('a hold of %s is too short %s', async (hold, short) => {
    const { presses } = await holdsIn(repair(press('first', hold)));
    const [star] = presses[0]?.against ?? [];
    const coldest = needed(thin, 0.033, 0.02, celsius(5));
    expect(coldest > Number.parseFloat(hold)).toBe(short !== 'nowhere');
    expect(star?.short).toBe(short);
    // At 2 s the datasheet ends before the need comes down to the hold.
    if (hold === '2 s') expect(star?.turn).toMatchObject({ isExact: false, at: celsius(30) });
  });

  test('where a finding says that a hold is too short, the picture does, and nowhere else', async () => {
    for (const hold of ['10 s', '25 s', '40 s', '2 min']) {
      const [first] = await proceduresIn(repair(`${press('first', hold)} ${press('second', '35 s')}`));
      if (first === undefined) throw new Error('no procedure');
      const found = holdsOf(first, {});
      if (found.kind === 'nothing') throw new Error(found.reason);
      const told = first.findings.filter(({ rule }) => rule === 'hold-shorter-than-fill').map(({ step }) => step);
      const drawn = found.holds.presses.flatMap(({ id, against }) =>
        against.flatMap(({ short, isOutlasted }) => (short !== 'nowhere' && !isOutlasted ? [id] : [])),
      );
      expect([...new Set(drawn)]).toEqual([...new Set(told)]);
    }
  });

  test('a longer press makes up for a shorter one', async () => {
    const { presses } = await holdsIn(repair(`${press('first', '10 s')} ${press('second', '2 min')}`));
    expect(presses.map(({ against }) => against.map(({ short, isOutlasted }) => [short, isOutlasted]))).toEqual([
      [
        ['below', true],
        ['below', true],
      ],
      [
        ['nowhere', false],
        ['nowhere', false],
      ],
    ]);
  });
});

describe('what is asked', () => {
  test('one step alone, with what it uses', async () => {
    const text = repair(`when break is star { ${press('first', '30 s')} } otherwise { ${press('second', '1 min')} }`);
    const both = await holdsIn(text);
    const one = await holdsIn(text, 'second');
    expect(both.steps.map(({ name }) => name)).toEqual(['first', 'second']);
    expect(both.presses.map(({ id }) => id)).toEqual(['first', 'second']);
    expect([one.step, one.presses.map(({ id }) => id)]).toEqual(['second', ['second']]);
    expect(one.needs.map(({ resin, circumstance }) => [resin.name, circumstance])).toEqual([['thick', 'always']]);
    expect(one.assumptions.map(({ property, text: amount }) => `${property} ${amount}`)).toEqual([
      'gap 3 µm',
      'length 10 mm',
      'pressure 200 kPa',
    ]);
    expect(await holdsIn(text, 'of-another-sheet')).toEqual(both);
  });

  test('assumptions come with their reasons', async () => {
    const { assumptions } = await holdsIn(repair(press('first', '30 s')));
    expect(assumptions[0]).toMatchObject({ property: 'gap', because: 'As the trade has it.', source: 'ours' });
    expect(assumptions.map(({ circumstance }) => circumstance)).toEqual([
      undefined,
      undefined,
      'break is bullseye',
      undefined,
    ]);
  });
});

describe('where there is no estimate', () => {
  test('a resin without viscosities is named, with the line that would tell; the others are drawn', async () => {
    const text = repair(press('first', '30 s'), 'when break is star: thin; otherwise: blank');
    const { needs, missing } = await holdsIn(text);
    expect(needs.map(({ resin }) => resin.name)).toEqual(['thin']);
    expect(missing.map(({ message, wakes }) => `${message} ${wakes}`)).toEqual([
      'The datasheet of "blank" has no line "viscosity". viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C',
    ]);
    expect(missing[0]?.range?.start.line).toBe(trade.split('\n').findIndex((line) => line.includes('resin blank')));
  });

  test.each([
    ['no resin has viscosities', repair(press('first', '30 s'), 'otherwise: blank'), /"blank".*viscosity 35 mPa·s/],
    [
      'no reading is of the glass',
      repair(press('first', '30 s'), undefined, trade.replace(/assume glass.*/, '')),
      /assume glass/,
    ],
    [
      'nobody assumes a gap',
      repair(press('first', '30 s'), undefined, trade.replace(/gap 3 µm.*/, '')),
      /assume filling \{ gap/,
    ],
    ['nothing is in hand', repair('step first "Press" { do press; hold 30 s }'), /would tell: /],
    ['no step presses', repair('step first "Wait" { hold 30 s }'), /No step of “Repair” presses resin in\./],
  ])('%s: the reason is told', async (_, text, reason) => {
    expect(await reasonIn(text)).toMatch(reason);
  });

  test('nothing is thrown where figures make no sense', async () => {
    for (const line of [
      'viscosity 20 mPa·s at 5 °C, 90 mPa·s at 20 °C',
      'viscosity 20 mPa·s at 20 °C, 21 mPa·s at 20 °C',
      'viscosity 0 mPa·s at 20 °C',
    ]) {
      const text = repair(press('first', '30 s'), 'otherwise: blank').replace(
        'resin blank "Resin without a datasheet"',
        `resin blank "Resin" { ${line} }`,
      );
      expect(await reasonIn(text)).toContain('blank');
    }
  });
});

test.each([
  'school/stone-chip.quarrel',
  'school/surface-pit.quarrel',
  'draft/faulty-draft.quarrel',
  'other-trades/short-crack.quarrel',
  'other-trades/composite-patch.quarrel',
  'other-trades/headlamp-lens.quarrel',
])('the example %s has a picture or a reason', async (path) => {
  for (const example of await examplesIn(path)) {
    const found = holdsOf(example, {});
    if (found.kind === 'nothing') {
      expect(found.reason).toMatch(/\S{3}/);
      continue;
    }
    const { scales, needs, presses } = found.holds;
    expect(needs.length).toBeGreaterThan(0);
    for (const { temperature, seconds } of needs.flatMap(pointsOf)) {
      expect(temperature).toBeGreaterThanOrEqual(scales.temperature.low);
      expect(temperature).toBeLessThanOrEqual(scales.temperature.high);
      expect(seconds).toBeGreaterThan(scales.time.low);
      expect(seconds).toBeLessThan(scales.time.high);
    }
    expect(JSON.parse(JSON.stringify({ needs, presses }))).toEqual({ needs, presses });
  }
});
