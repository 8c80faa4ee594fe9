import { checkSheets, type Finding } from '@quarrel/checks';
import { expect, test } from 'vitest';
import { read } from './reading.js';

async function findingsOf(text: string): Promise<readonly Finding[]> {
  return checkSheets(await read({ draft: text })).findings;
}

const draft = `
observation break: bullseye, half-moon, star, combination
reading glass-temperature: 0 °C to 40 °C
state cavity: empty, evacuated, filled, cured

act draw-vacuum { makes cavity evacuated }
act press-resin { makes cavity filled }
act cure {
  needs cavity is filled as cure-after-fill because "Curing locks in whatever air is left."
  makes cavity cured
}

procedure chip "Stone chip" {
  step name-it "Name the break" { observe break }
  step measure "Read the glass temperature" { read glass-temperature }
  step draw "Draw vacuum" { do draw-vacuum; hold 1 min to 2 min }
  when break is star {
    step press "Press resin in" { do press-resin; hold 1 min to 2 min }
  } otherwise {
    step look "Look from both sides"
  }
  when glass-temperature below 10 °C {
    step warm "Warm the glass"
  }
  step cure "Cure under the lamp" { do cure; hold 60 s }
}
`;

test('resin pressed only where the break is a star: the cure is at fault for exactly the other breaks, with the path', async () => {
  const findings = await findingsOf(draft);
  expect(findings.map(({ rule }) => rule)).toEqual(['cure-after-fill']);
  const [finding] = findings;
  expect(finding?.severity).toBe('error');
  expect(finding?.procedure).toBe('chip');
  expect(finding?.message).toBe('"cure" needs cavity filled, but here it can still be evacuated.');
  expect(finding?.because).toBe('Curing locks in whatever air is left.');
  const line = draft.split('\n')[finding?.range.start.line ?? 0] ?? '';
  expect(line.slice(finding?.range.start.column, finding?.range.end.column)).toBe('cure');
  expect(line).toContain('step cure');
  expect(finding?.situation?.region).toBe('break is bullseye, half-moon, combination');
  expect(finding?.situation?.witness).toMatchObject({ break: 'bullseye', 'glass-temperature': expect.any(Number) });
  expect(finding?.situation?.path.map(({ step }) => step)).toEqual(['name-it', 'measure', 'draw', 'look']);
});

test.each([
  ['at most 10 °C', 'at least 20 °C', 'glass-temperature above 10 °C and glass-temperature below 20 °C'],
  ['at most 10 °C', 'above 20 °C', 'glass-temperature above 10 °C and glass-temperature at most 20 °C'],
  ['below 10 °C', 'at least 20 °C', 'glass-temperature at least 10 °C and glass-temperature below 20 °C'],
  ['below 10 °C', 'above 20 °C', 'glass-temperature from 10 °C to 20 °C'],
  ['below 10 °C', 'above 10 °C', 'glass-temperature is 10 °C'],
  ['below 50 °F', 'above 10 °C', 'glass-temperature is 50 °F'],
])('a choice with cases %s and %s lacks exactly %s', async (low, high, region) => {
  const findings = await findingsOf(`
reading glass-temperature: 0 °C to 40 °C
resin thin
resin medium
procedure chip {
  choose resin fill {
    when glass-temperature ${low}: thin
    when glass-temperature ${high}: medium
  }
  step "Read the glass temperature" { read glass-temperature }
  step "Press resin in" { with fill }
}
`);
  expect(findings.map(({ rule, situation }) => [rule, situation?.region])).toEqual([['gap-in-choice', region]]);
});

test('cases that meet leave no gap', async () => {
  const findings = await findingsOf(`
reading glass-temperature: 0 °C to 40 °C
resin thin
resin medium
procedure chip {
  choose resin fill {
    when glass-temperature below 10 °C: thin
    when glass-temperature at least 50 °F: medium
  }
  step "Read the glass temperature" { read glass-temperature }
  step "Press resin in" { with fill }
}
`);
  expect(findings).toEqual([]);
});

test('a condition read again: the path keeps the steps that an older value led to', async () => {
  const findings = await findingsOf(`
reading glass-temperature: 0 °C to 40 °C
state cavity: empty, filled
act fill { makes cavity filled }
act cure { needs cavity is filled because "Air stays in." }
procedure chip {
  step first "Read the glass temperature" { read glass-temperature }
  when glass-temperature below 10 °C {
    step warm "Warm the glass, slowly"
    step second "Read it again" { read glass-temperature }
    when glass-temperature at least 20 °C {
      step cure "Cure under the lamp" { do cure }
      stop "Done early."
    }
  }
  step fill "Press resin in" { do fill }
}
`);
  const [finding] = findings;
  expect(finding?.rule).toBe('unmet-need');
  expect(finding?.situation?.path.map(({ step }) => step)).toEqual(['first', 'warm', 'second']);
});

test('a condition read again: the path goes one way through a decision', async () => {
  const findings = await findingsOf(`
reading glass-temperature: 0 °C to 40 °C
state cavity: empty, filled
act fill { makes cavity filled }
act cure { needs cavity is filled because "Air stays in." }
procedure chip {
  step first "Read the glass temperature" { read glass-temperature }
  when glass-temperature below 10 °C {
    step warm "Warm the glass, slowly"
    step second "Read it again" { read glass-temperature }
  } otherwise {
    step go-on "Go on at once"
  }
  when glass-temperature at least 20 °C {
    step cure "Cure under the lamp" { do cure }
  } otherwise {
    step fill "Press resin in" { do fill }
  }
}
`);
  const [finding] = findings;
  expect(finding?.situation?.region).toBe('always');
  expect(finding?.situation?.path.map(({ step }) => step)).toEqual(['first', 'go-on']);
});
