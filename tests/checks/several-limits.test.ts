import { checkSheets } from '@quarrel/checks';
import { expect, test } from 'vitest';
import { read, textsOf } from './reading.js';

/** What is told of limits: which line, and which others beside it. */
async function told(sheet: string) {
  const { findings } = checkSheets(await read({ sheet }));
  return findings
    .filter(({ rule }) => rule === 'beyond-limits')
    .map(({ message, situation, related = [] }) => ({
      line: message.replace(/^.*beyond what /, ''),
      where: situation?.region,
      beside: related.map((one) => one.message),
    }));
}

test('the tightest of several lines speaks, and names those that are broken as well', async () => {
  const { 'several-profiles': sheet = '' } = textsOf('beyond-limits');
  expect((await told(sheet)).slice(0, 2)).toEqual([
    {
      line: '"house" allows: break-width at most 10 mm.',
      where: 'zone is driver-view and break-width above 10 mm',
      beside: ['allowed is'],
    },
    {
      line: '"house" allows: break-width at most 25 mm.',
      where: 'break-width above 25 mm',
      beside: [
        'allowed is',
        '"country" is broken as well: break-width at most 30 mm',
        '"insurer" is broken as well: break-width at most 25 mm',
      ],
    },
  ]);
});

test('of two that are broken in the same situations the first in the sheet speaks', async () => {
  const sheet = (within: string) => `reading break-width: 0 mm to 60 mm
limits a { allows break-width at most 1 cm }
limits b { allows not (break-width above 10 mm) }
procedure chip {
  within limits ${within}
  step "Measure" { read break-width }
}
`;
  expect(await told(sheet('a, b'))).toMatchObject([{ line: '"a" allows: break-width at most 1 cm.' }]);
  expect(await told(sheet('b, a'))).toMatchObject([
    { line: '"b" allows: not break-width above 10 mm.', beside: ['allowed is', expect.stringContaining('"a"')] },
  ]);
});

test('lines of which neither is tighter everywhere speak each for itself', async () => {
  const sheet = `observation zone: driver-view, elsewhere
reading break-width: 0 mm to 60 mm
limits a { allows break-width at most 20 mm when zone is driver-view }
limits b { allows break-width at most 30 mm when zone is elsewhere }
procedure chip {
  within limits a, b
  step "Measure" { observe zone; read break-width }
}
`;
  expect(await told(sheet)).toMatchObject([{ beside: ['allowed is'] }, { beside: ['allowed is'] }]);
});
