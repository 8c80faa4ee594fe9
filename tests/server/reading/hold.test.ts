import { beforeAll, expect, test } from 'vitest';
import { createWorld, type World } from '../harness.js';
import { hoverIn } from './asking.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
});

const trade = `
observation break "Break type": bullseye, star
reading temperature "Glass temperature": -10 °C to 60 °C
state cavity: empty, filled
act press "Press resin in" { makes cavity filled }
act wait "Wait"
resin thin "Thin & clear" { viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C; surface-tension 33 mN/m }
resin thick { viscosity 90 mPa·s at 20 °C, 210 mPa·s at 5 °C }
resin blank
injector small { pressure 200 kPa }
assume glass { temperature temperature }
assume filling { during press; gap 3 µm; length 20 mm; length 10 mm when break is bullseye }
`;

function sheet(steps: string, choice = 'otherwise: thin'): string {
  return `${trade}
procedure repair "Repair" {
  covers { break is star; temperature from 5 °C to 20 °C }
  choose resin fill { ${choice} }
  step look "Look" { observe break; read temperature }
  ${steps}
}
`;
}

const press = (hold: string, id = 'push'): string => `step ${id} "Press" { do press with small; with fill; ${hold} }`;

/** The picture in a hover, as it was before it was packed, and the words for people who do not see it. */
function pictureIn(told: string): { readonly alt: string; readonly svg: string } {
  const [, alt = '', packed = ''] = /!\[(.*)\]\(data:image\/svg\+xml;base64,([^)]*)\)/.exec(told) ?? [];
  return { alt, svg: atob(packed) };
}

test.each(['ho<|>ld 1 min', 'hold <|>1 min', 'hold 1 mi<|>n'])(
  'at `%s`: what is estimated, in one line',
  async (hold) => {
    const told = await hoverIn(world, sheet(press(hold)));
    expect(told).toContain(
      'Estimated: Thin \\& clear needs about 1 min 49 s at 5 °C, 43 s at 20 °C; the hold is 1 min: too short below 14.16 °C (gap 3 µm, leg 20 mm assumed).',
    );
    expect(told).toContain('_An estimate from datasheets and assumptions, never an instruction.');
  },
);

test('several resins and legs: a line for each, with its situations', async () => {
  const text = sheet(
    press('ho<|>ld 1 min to 2 min'),
    'when temperature below 12 °C: thin; when temperature at least 12 °C: thick',
  ).replace('break is star; ', '');
  const told = await hoverIn(world, text);
  expect(told).toContain('Estimated beside the hold of 1 min to 2 min, with gap and leg as assumed:\n- ');
  expect(told.match(/^- .* needs about .* at 12 °C.*: (long enough for that|too short)/gm)?.length).toBe(4);
  expect(told).toContain('- Thin \\& clear when `break is star and temperature below 12 °C` needs about');
});

test('a longer press of the job makes up for it', async () => {
  const told = await hoverIn(world, sheet(`${press('ho<|>ld 1 min')} ${press('hold 5 min', 'again')}`));
  expect(told).toContain('too short below 14.16 °C, which a longer press of the job makes up for (gap');
});

test('a picture, which says in words what it shows', async () => {
  const { alt, svg } = pictureIn(await hoverIn(world, sheet(press('ho<|>ld 1 min'))));
  expect(alt).toBe(
    'Time needed against Glass temperature, the colder the longer: Thin \\& clear about 1 min 49 s at 5 °C, 43 s at 20 °C. The hold of 1 min is a band across. They cross at 14.16 °C.',
  );
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="\d+" height="\d+"/);
  // What is not in ASCII, and what XML would misread, stands as a number.
  expect(svg).toMatch(/^[ -~]*$/);
  expect(svg).toContain('>14.16 &#176;C<');
  expect(svg).toContain('>Thin &#38; clear<');
  expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  const sizes = [...svg.matchAll(/font-size="(\d+)"/g)].map(([, size]) => Number(size));
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
});

test('where nothing can be estimated: why, and which line would tell', async () => {
  const told = await hoverIn(world, sheet(press('ho<|>ld 1 min'), 'otherwise: blank'));
  expect(told).toContain('No estimate: The datasheet of "blank" has no line "viscosity".');
  expect(told).toContain('viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C');
  expect(pictureIn(told).svg).toBe('');
});

test.each([
  ['a step that does not press', sheet('step rest "Rest" { do wait; ho<|>ld 1 min }')],
  ['another clause of a step that presses', sheet(press('hold 1 min; ta<|>kes 10 s'))],
  ['a trade that estimates nothing', sheet(press('ho<|>ld 1 min')).replace(/assume filling.*/, '')],
  ['a rule about holds', `${trade}\nrule long { ho<|>ld of press at least 1 min }`],
])('nothing of it at %s', async (_, text) => {
  const told = await hoverIn(world, text);
  expect(told).not.toBe('');
  expect(told).not.toMatch(/[Ee]stimate|!\[/);
});
