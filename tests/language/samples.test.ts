import { stepsOf } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { allSteps, effectKinds, first, readOne, readShop, said } from './reading.js';

/** The language as it was first written down, sample by sample; everything else leans on these. */

const conditions = `
observation break "Break type": bullseye "Bullseye", half-moon, star, combination, short-crack   // seen by eye
observation zone: driver-view, elsewhere
reading glass-temperature "Glass temperature": -20 °C to 60 °C                                    // read from an instrument
reading leg-length: 0 mm to 150 mm
`;

const work = `
state seal: off, seated, tight                 // the first value is the starting one
state cavity: empty, evacuated, wetted, filled, cured

hazard uv "UV light" warning {               // signal word: danger, warning, caution or notice
  wear "glasses that block UV"
  do "Keep other people away from the lamp."
  source "IEC 62471"
}

act cure "Cure the resin" {
  needs cavity is filled as cure-after-fill because "Curing locks in whatever air is left."
  makes cavity cured
  raises uv
}

rule film-before-pit-cure "Cover the pit before curing it" {
  cover-pit comes before cure-pit            // precedence
  because "Air keeps the surface soft."
}
rule press-soon { after draw-vacuum, press-resin follows within 10 min }   // response, with a time
rule no-second-flex { no flex after cure }                                 // absence
rule leave-it-polished { at the end pit is polished }                      // final state
rule slow-cold-hold { hold of press-resin at least 2 min when glass-temperature below 10 °C }
`;

/** What the samples speak of without declaring it. */
const rest = `
state pit: open, covered, polished
act cover-pit makes pit covered
act cure-pit
act draw-vacuum makes cavity evacuated
act press-resin
act flex
act seat-injector makes seal seated
act seal-injector
act seal makes seal tight
act warm
`;

const things = `
tool probe "Fixed probe"
resin thin "Thin clear resin" {
  viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C      // two points: Andrade; three or more: fitted
  surface-tension 33 mN/m
  cure-dose 1.2 J/cm² at 365 nm
  works from 5 °C to 32 °C
  open-time 4 min under 1 mW/cm²
}
lamp bench "Bench lamp" { irradiance 25 mW/cm² at 30 mm; wavelength 365 nm; spot 60 mm }
injector small { vacuum 85 %; pressure 200 kPa }
`;

const procedure = `
use "quarrel:laminated-glass"

/** From first look to polished glass. */
procedure stone-chip "Stone-chip repair" {
  revision "4"
  covers {
    break is bullseye, half-moon, star, combination
    glass-temperature from 5 °C to 35 °C
  }
  within limits us-393-60                     // a published limits profile

  choose resin fill {                         // exactly one case must fit every situation covered
    when break is star, combination: thin
    otherwise: medium
  }

  stage "Assess" {
    step name-it "Light the break from behind and name its type" { observe break; takes 30 s to 1 min }
    step measure "Read the glass temperature beside the break" {
      read glass-temperature
      accept 5 °C to 35 °C or else stop "Bring the glass into range, slowly, then start again."
      takes 10 s
    }
  }

  stage "Fill" {
    step seat "Seat the injector over the impact point" { do seat-injector, seal; takes 20 s }
    step first-draw "Draw vacuum" { do draw-vacuum; hold 15 s to 30 s }
    step first-press "Press resin in" { do press-resin; with fill amount 4 to 6 drops; hold 15 s to 30 s }
    step long-draw "Draw vacuum again" {
      do draw-vacuum
      hold 1 min to 2 min
      meanwhile {
        when break is not bullseye { step "Press lightly round the legs" { do flex; takes 10 s to 20 s } }
      }
    }
    repeat at most 3 times until "Every leg shows from one side only" confirms cavity filled {
      step long-press "Press resin again" { do press-resin; hold 1 min to 2 min }
    } or else stop "Legs stay open: refer the glass for replacement."
  }

  stage "Cure" {
    step cure "Cure under the lamp, injector still on" { caution uv; do cure with bench; hold 60 s }
  }
}
`;

const trade = `${conditions}${work}${rest}${things}
resin medium "Medium resin"
limits us-393-60 { allows leg-length at most 150 mm }
`;

const variation = `
resin harbour-thin
variation harbour of stone-chip "Harbour Glass, winter" {
  covers { glass-temperature from 5 °C to 20 °C }           // may narrow, never widen
  use resin harbour-thin instead of thin
  in step long-draw { hold 2 min to 3 min }
  after step measure { step "Warm the glass with the cabin heater, windows open" { do warm; hold 5 min to 10 min } }
  instead of step cure { step "Cure for longer" { do cure; hold 90 s } }
  omit step first-draw because "Our injector draws in one go."
}
`;

const example = `
example "Cold star" of stone-chip {
  suppose break is star
  suppose glass-temperature is 8 °C
  uses thin
  has step long-press
  lacks step "Press lightly round the cone"
  lasts 9 min to 16 min
}
`;

describe('the samples', () => {
  test('conditions, states, acts, hazards, rules and things are read without a problem', async () => {
    const sheet = await readOne(trade);
    expect(sheet.problems.map(said)).toEqual([]);
    expect(sheet.acts.map(({ name }) => name)).toContain('cure');
    const cure = sheet.acts.find(({ name }) => name === 'cure');
    expect(cure).toMatchObject({
      label: 'Cure the resin',
      needs: [{ rule: 'cure-after-fill', because: 'Curing locks in whatever air is left.' }],
      makes: [{ state: 'cavity', value: 'cured' }],
      raises: ['uv'],
    });
    expect(sheet.rules.map(({ pattern }) => pattern)).toMatchObject([
      { kind: 'precedence', first: 'cover-pit', later: 'cure-pit' },
      { kind: 'response', trigger: 'draw-vacuum', response: 'press-resin', within: { si: 600 } },
      { kind: 'absence', act: 'flex', after: 'cure' },
      { kind: 'final', test: { kind: 'is', subject: 'pit', values: ['polished'] } },
      { kind: 'hold', act: 'press-resin', bound: 'at-least', quantity: { text: '2 min' } },
    ]);
    expect(sheet.rules[4]?.when).toMatchObject({ kind: 'compare', comparison: 'below', quantity: { text: '10 °C' } });
  });

  test('the procedure is read over what it uses', async () => {
    const result = await readShop({ 'main.quarrel': procedure }, { shipped: { 'laminated-glass': trade } });
    const sheet = first(result.sheets);
    expect(sheet.problems.map(said)).toEqual([]);
    expect(result.others.map(({ uri }) => uri)).toEqual(['quarrel:/laminated-glass.quarrel']);
    const chip = first(sheet.procedures);
    expect(chip).toMatchObject({
      name: 'stone-chip',
      label: 'Stone-chip repair',
      documentation: 'From first look to polished glass.',
      revision: '4',
      within: [{ name: 'us-393-60' }],
      covers: [
        { kind: 'is', subject: 'break', values: ['bullseye', 'half-moon', 'star', 'combination'], negated: false },
        { kind: 'between', subject: 'glass-temperature', low: { text: '5 °C' }, high: { text: '35 °C' } },
      ],
      choices: [
        {
          name: 'fill',
          thingKind: 'resin',
          cases: [{ thing: 'thin', test: { values: ['star', 'combination'] } }],
          otherwise: { name: 'medium' },
        },
      ],
    });
    expect(stepsOf(chip).map(({ id }) => id)).toEqual([
      'name-it',
      'measure',
      'seat',
      'first-draw',
      'first-press',
      'long-draw',
      'press-lightly-round-the-legs',
      'long-press',
      'cure',
    ]);
    const [, measure, seat, , press, draw] = stepsOf(chip);
    expect(measure?.effects).toMatchObject([
      {
        kind: 'read',
        condition: 'glass-temperature',
        accept: {
          span: { least: { text: '5 °C' }, most: { text: '35 °C' } },
          orElseStop: 'Bring the glass into range, slowly, then start again.',
        },
      },
    ]);
    expect(seat?.effects).toMatchObject([
      { kind: 'act', act: 'seat-injector' },
      { kind: 'act', act: 'seal' },
    ]);
    expect(press?.effects[1]).toMatchObject({
      kind: 'with',
      thing: 'fill',
      isChoice: true,
      amount: { least: { text: '4 drops', si: 4 }, most: { text: '6 drops' } },
    });
    expect(draw && effectKinds(draw)).toEqual(['act', 'meanwhile']);
    const fill = chip.body[1];
    expect(fill?.kind === 'stage' && fill.body.at(-1)).toMatchObject({
      kind: 'repeat',
      atMost: 3,
      until: 'Every leg shows from one side only',
      confirms: { state: 'cavity', value: 'filled' },
      orElseStop: 'Legs stay open: refer the glass for replacement.',
    });
    const cure = stepsOf(chip).at(-1);
    expect(cure).toMatchObject({
      cautions: [{ kind: 'hazard', hazard: 'uv' }],
      hold: { least: { si: 60 }, most: { si: 60 } },
      effects: [
        { kind: 'act', act: 'cure' },
        { kind: 'with', thing: 'bench', isChoice: false },
      ],
    });
  });

  test('the vocabulary of a procedure has what is used before what is its own', async () => {
    const own = `${procedure}\nact polish\ntool rag\nstate mood: good, bad\n`;
    const { sheets } = await readShop({ 'main.quarrel': own }, { shipped: { 'laminated-glass': trade } });
    const { vocabulary } = first(first(sheets).procedures);
    expect(vocabulary.observations.map(({ name }) => name)).toEqual(['break', 'zone']);
    expect(vocabulary.readings.map(({ name }) => name)).toEqual(['glass-temperature', 'leg-length']);
    expect(vocabulary.states.map(({ name }) => name)).toEqual(['seal', 'cavity', 'pit', 'mood']);
    expect(vocabulary.acts.at(-1)?.name).toBe('polish');
    expect(vocabulary.things.map(({ name }) => name)).toEqual(['probe', 'thin', 'bench', 'small', 'medium', 'rag']);
    expect(vocabulary.hazards).toMatchObject([
      {
        name: 'uv',
        signal: 'warning',
        measures: [
          { kind: 'wear', text: 'glasses that block UV' },
          { kind: 'do', text: 'Keep other people away from the lamp.' },
        ],
        source: 'IEC 62471',
      },
    ]);
    expect(vocabulary.limits).toMatchObject([{ name: 'us-393-60', allowances: [{ test: { subject: 'leg-length' } }] }]);
    expect(vocabulary.things[1]?.properties.map(({ name, entries }) => [name, entries.length])).toEqual([
      ['viscosity', 2],
      ['surface-tension', 1],
      ['cure-dose', 1],
      ['works', 1],
      ['open-time', 1],
    ]);
    expect(vocabulary.things[1]?.properties[0]?.entries[1]).toMatchObject({
      value: { least: { si: 0.09 }, most: { text: '90 mPa·s' } },
      at: { si: 278.15 },
    });
  });

  test('a variation and an example are read, and change nothing in the procedure', async () => {
    const shipped = { shipped: { 'laminated-glass': trade } };
    const plain = await readShop({ 'main.quarrel': procedure }, shipped);
    const more = await readShop({ 'main.quarrel': `${procedure}${variation}${example}` }, shipped);
    expect(first(more.sheets).problems.map(said)).toEqual([]);
    expect(allSteps(first(more.sheets)).map(({ id }) => id)).toEqual(allSteps(first(plain.sheets)).map(({ id }) => id));
  });

  test('names in variations and examples are resolved', async () => {
    const { sheets } = await readShop(
      {
        'main.quarrel': `${procedure}
variation v of stone-chip { omit step first-drew because "x"; use resin thinn instead of thin }
example "E" of stone-chip { has step long-pres; suppose break is stra }
example "F" of stone-chop { }
`,
      },
      { shipped: { 'laminated-glass': trade } },
    );
    expect(first(sheets).problems.map(said)).toEqual([
      '48:39 unknown-name: step of stone-chip first-drew -> first-draw, first-press',
      '48:73 unknown-name: tool, resin, lamp, injector or consumable thinn -> thin',
      '49:38 unknown-name: step of stone-chip long-pres -> long-press, long-draw',
      '49:66 unknown-name: value of break stra -> star',
      '50:16 unknown-name: procedure stone-chop -> stone-chip',
    ]);
  });
});
