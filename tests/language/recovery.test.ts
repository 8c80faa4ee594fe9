import { createQuarrelServices } from '@quarrel/language';
import { describe, expect, test } from 'vitest';
import { allSteps, readOne } from './reading.js';

/** A good sheet with everything in it. Every mutation below breaks it in one place. */
const good = `observation break "Break type": bullseye "Bullseye", star, combination
observation zone: driver-view, elsewhere
reading temperature "Temperature": -20 °C to 60 °C
state cavity: empty, filled, cured
hazard uv "UV light" warning {
  wear "glasses that block UV"
  source "IEC 62471"
}
act draw-vacuum "Draw"
act press-resin "Press" { makes cavity filled }
act cure "Cure" {
  needs cavity is filled as cure-after-fill because "Curing locks in air."
  makes cavity cured
  raises uv
}
rule press-soon { after draw-vacuum, press-resin follows within 10 min because "It dries." }
rule order "Order" { draw-vacuum comes before cure when temperature below 10 °C because "So." }
resin thin "Thin" { viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C; works from 5 °C to 32 °C }
resin medium
limits house { allows temperature at least 5 °C because "Cold." }

procedure chip "Chip" {
  revision "1"
  covers {
    break is bullseye, star
    temperature from 5 °C to 35 °C
  }
  within limits house
  choose resin fill {
    when break is star: thin
    otherwise: medium
  }
  stage "Assess" {
    step look "Look" { observe break, zone; takes 30 s to 1 min }
    step measure "Measure" {
      read temperature
      accept 5 °C to 35 °C or else stop "Warm it."
    }
  }
  stage "Fill" {
    step draw "Draw vacuum" {
      do draw-vacuum
      hold 1 min to 2 min
      meanwhile {
        when break is not bullseye { step "Flex" { note "Gently." } }
      }
    }
    when zone is driver-view {
      step slow "Go slowly"
    } otherwise when break is star and temperature below 10 °C {
      step warm "Warm the resin" { takes 1 min }
    } otherwise {
      step "Go on"
    }
    repeat at most 3 times until "Filled" confirms cavity filled {
      step press "Press" { do press-resin; with fill amount 4 to 6 drops; hold 15 s to 30 s }
    } or else stop "It stays open."
  }
  stage "Cure" {
    step cure "Cure" { caution uv; do cure; hold 60 s; check "Hard" or else stop "Soft." }
    step last "Wipe"
  }
}
`;

const { tokens } = createQuarrelServices().quarrel.parser.Lexer.tokenize(good);
const start = good.indexOf('procedure chip');

interface Outcome {
  readonly lost: number;
  readonly faults: number;
  readonly others: number;
}

async function outcomeOf(text: string, steps: number): Promise<Outcome> {
  const sheet = await readOne(text);
  const faults = sheet.problems.filter(({ rule }) => rule === 'syntax').length;
  return { lost: steps - allSteps(sheet).length, faults, others: sheet.problems.length - faults };
}

/** How many of the outcomes hold, as a share. */
function share(outcomes: readonly Outcome[], holds: (outcome: Outcome) => boolean): number {
  return outcomes.filter(holds).length / outcomes.length;
}

describe('one broken place', () => {
  test('the sheet is good to begin with', async () => {
    const sheet = await readOne(good);
    expect(sheet.problems).toEqual([]);
    expect(allSteps(sheet)).toHaveLength(10);
  });

  test('a word taken away costs at most its own step', async () => {
    const outcomes: Outcome[] = [];
    for (const token of tokens) {
      if (token.startOffset === start) continue;
      const text = good.slice(0, token.startOffset) + good.slice(token.startOffset + token.image.length);
      const outcome = await outcomeOf(text, 10);
      expect(outcome.lost, `without ${token.image} in line ${token.startLine}`).toBeLessThanOrEqual(1);
      outcomes.push(outcome);
    }
    expect(share(outcomes, ({ lost }) => lost === 0)).toBeGreaterThan(0.96);
    // A fault is said once, and is the only thing that is said.
    expect(share(outcomes, ({ faults }) => faults <= 1)).toBeGreaterThan(0.98);
    expect(share(outcomes, ({ faults, others }) => faults === 0 || others === 0)).toBeGreaterThan(0.98);
  });

  test.each(['{', '}', ',', ';', '§', 'hodl', 'step', '15', '"', 'when', '('])(
    'a %s put in anywhere loses next to nothing',
    async (intruder) => {
      const outcomes: Outcome[] = [];
      for (const token of tokens.filter((_, at) => at % 2 === 0)) {
        const text = `${good.slice(0, token.startOffset)}${intruder} ${good.slice(token.startOffset)}`;
        outcomes.push(await outcomeOf(text, 10));
      }
      // A quotation mark takes the rest of its line with it, and the steps on that line.
      const most = intruder === '"' ? 3 : 2;
      expect(share(outcomes, ({ lost }) => lost <= most)).toBeGreaterThan(0.97);
      expect(share(outcomes, ({ lost }) => lost <= 0)).toBeGreaterThan(0.85);
      expect(share(outcomes, ({ faults }) => faults <= 1)).toBeGreaterThan(0.85);
    },
  );

  test('every line may go, and the steps on the others stay', async () => {
    const lines = good.split('\n');
    const first = lines.findIndex((line) => line.startsWith('procedure'));
    for (const at of lines.keys()) {
      if (at === first) continue;
      const text = lines.filter((_, index) => index !== at).join('\n');
      const outcome = await outcomeOf(text, 10);
      expect(outcome.lost, `without line ${at + 1}: ${lines[at]}`).toBeLessThanOrEqual(1);
    }
  });

  test('a sheet that ends anywhere keeps the steps before', async () => {
    const lines = good.split('\n');
    for (const at of lines.keys()) {
      const text = lines.slice(0, at).join('\n');
      const sheet = await readOne(text);
      const whole = text.match(/\bstep (?:[a-z]+ )?"[^"]*"/g)?.length ?? 0;
      expect(allSteps(sheet).length, `cut before line ${at + 1}`).toBe(whole);
      expect(sheet.problems.filter(({ rule }) => rule === 'syntax').length).toBeLessThanOrEqual(1);
    }
  });
});
