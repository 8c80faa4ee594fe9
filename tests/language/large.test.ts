import { expect, test } from 'vitest';
import { allSteps, readOne } from './reading.js';

function sheetOf(steps: number): string {
  const body = Array.from({ length: steps }, (_, at) =>
    at % 5 === 4
      ? `  when break is star and t below 10 °C { step s${at} "Step ${at}" { do fill; hold 15 s to 30 s } }`
      : '  step "Do the thing" { do fill; with thin amount 4 to 6 drops; takes 10 s; hold 1 min 30 s }',
  );
  return `observation break: bullseye, star
reading t: -20 °C to 60 °C
state cavity: empty, filled
act fill makes cavity filled
resin thin
procedure p {
  step look "Look" { observe break; read t }
${body.join('\n')}
}
`;
}

test('a procedure of 10,000 steps is read whole', async () => {
  const sheet = await readOne(sheetOf(10_000));
  expect(sheet.problems).toEqual([]);
  expect(allSteps(sheet)).toHaveLength(10_001);
  expect(new Set(allSteps(sheet).map(({ id }) => id)).size).toBe(10_001);
});
