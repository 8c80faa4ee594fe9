import { checklistToHtml, checklistToJson, checklistToMarkdown, compileProcedure } from '@quarrel/checklist';
import { checkSheets } from '@quarrel/checks';
import { readSheets } from '@quarrel/language';
import { expect, test } from 'vitest';

/** A procedure that covers what `covers` says and keeps within some profiles of the sheets that ship. */
async function within(profiles: string, covers: string, sheets: readonly string[]) {
  const text = `use "quarrel:laminated-glass"
${sheets.map((sheet) => `use "quarrel:${sheet}"`).join('\n')}
procedure repair { revision "1"; covers { ${covers} }; within limits ${profiles}; step look "Look" { observe break } }`;
  const { sheets: read } = await readSheets(['file:///repair.quarrel'], {
    read: async (uri) => (uri === 'file:///repair.quarrel' ? { kind: 'text', text } : { kind: 'missing' }),
  });
  const report = checkSheets(read);
  expect(report.findings.filter(({ rule }) => ['syntax', 'unknown-name', 'unknown-sheet'].includes(rule))).toEqual([]);
  return report;
}

// Boundaries as the sources word them: "not closer than", "within a circle of", "at most", "exceeds".
test.each([
  [
    'us-393-60',
    'limits-us',
    'us-area is inside; break is star; similar-distance at least 76 mm',
    'damage-size',
    '19 mm',
    '19.05 mm',
  ],
  [
    'us-393-60',
    'limits-us',
    'us-area is inside; break is star; damage-size at most 19 mm',
    'similar-distance',
    '76 mm',
    '75.9 mm',
  ],
  ['maryland', 'limits-us', 'wiper-sweep is driver-side; break is star', 'damage-size', '12.7 mm', '12.8 mm'],
  ['maryland', 'limits-us', 'wiper-sweep is driver-side; break is star', 'damage-size', '0.5 inch', '0.51 inch'],
  ['uk-mot', 'limits-uk', 'uk-zone is zone-a', 'damage-size', '10 mm', '10.1 mm'],
  ['uk-mot', 'limits-uk', 'uk-zone is swept', 'damage-size', '40 mm', '40.1 mm'],
  ['uk-heavy', 'limits-uk', 'uk-heavy-zone is zone-a', 'damage-size', '10 mm', '10.1 mm'],
  ['bs-au-242a', 'limits-uk', 'bs-zone is zone-b', 'damage-size', '15 mm', '15.1 mm'],
  ['bs-au-242a', 'limits-uk', 'bs-zone is zone-d', 'damage-size', '40 mm', '40.1 mm'],
  ['rolags', 'limits-rolags', 'break is star; depth is outer-ply; dirt is clean', 'damage-size', '75 mm', '75.1 mm'],
  ['rolags', 'limits-rolags', 'break is bullseye; depth is outer-ply; dirt is clean', 'damage-size', '25 mm', '1 inch'],
  [
    'au-inspection',
    'limits-australia',
    'au-wiped is driver-side; break is star; depth is outer-ply',
    'damage-size',
    '16 mm',
    '16.1 mm',
  ],
  [
    'as-nzs-2366',
    'limits-australia',
    'au-cva is outside; depth is outer-ply',
    'earlier-repairs',
    '7 pieces',
    '8 pieces',
  ],
  [
    'nz-virm',
    'limits-australia',
    'au-cva is outside; break is star; depth is outer-ply',
    'damage-size',
    '30 mm',
    '30.1 mm',
  ],
  [
    'de-laminated',
    'limits-germany',
    'far-vision is outside; depth is outer-ply; leg-length at most 50 mm',
    'pit-size',
    '5 mm',
    '5.1 mm',
  ],
  [
    'de-laminated',
    'limits-germany',
    'far-vision is outside; depth is outer-ply; pit-size at most 5 mm',
    'leg-length',
    '50 mm',
    '50.1 mm',
  ],
  ['quebec', 'limits-canada', 'qc-area is inside', 'damage-size', '12 mm', '12.1 mm'],
  ['saskatchewan', 'limits-canada', 'sk-area is wiped; break is star', 'damage-size', '13 mm', '13.1 mm'],
])('%s in %s, where %s: %s %s is within, %s beyond', async (profile, sheet, covers, reading, inside, outside) => {
  const beyond = async (value: string) =>
    (await within(profile, `${covers}; ${reading} is ${value}`, [sheet])).findings.filter(
      ({ rule }) => rule === 'beyond-limits',
    );
  expect(await beyond(inside)).toEqual([]);
  expect(await beyond(outside)).toHaveLength(1);
});

test('of several profiles the tightest line is asked and named, with its source, on every output', async () => {
  const { procedures } = await within('de-laminated, rolags', 'break is star', ['limits-germany', 'limits-rolags']);
  const [report] = procedures;
  if (report === undefined) throw new Error('there is a procedure');
  const compiled = compileProcedure(report.procedure, { draft: true });
  if (compiled.kind !== 'checklist') throw new Error('it compiles');
  const { limits } = compiled.checklist;
  // Both ask for the outer ply; the size of a star is asked by one alone.
  expect(limits.map(({ profile, allows }) => `${profile.name}: ${allows.test}`)).toEqual([
    'de-laminated: far-vision is outside',
    'de-laminated: pit-size at most 5 mm',
    'de-laminated: leg-length at most 50 mm',
    'de-laminated: depth is outer-ply',
    'rolags: damage-size at most 75 mm',
    'rolags: dirt is clean, loose',
  ]);
  expect(limits[3]?.alsoIn).toHaveLength(1);
  expect(limits[1]?.asks).toEqual([{ name: 'pit-size', label: 'Size of the pit' }]);
  for (const render of [checklistToHtml, checklistToMarkdown]) {
    const page = render(compiled.checklist);
    for (const words of ['Size of the pit is at most 5 mm', 'Verkehrsblatt 1986 p. 130', 'STOP'])
      expect(page).toContain(words);
  }
  expect(JSON.parse(checklistToJson(compiled.checklist)).limits[4]).toMatchObject({
    profile: 'rolags',
    allows: 'damage-size at most 75 mm',
    asks: ['damage-size'],
    source: 'ROLAGS, as listed by a third party; from memory',
  });
});

test('a looser line is not asked where a tighter one stands', async () => {
  const { procedures } = await within('quebec, saskatchewan', 'break is star; qc-area is inside; sk-area is wiped', [
    'limits-canada',
  ]);
  const compiled = compileProcedure(procedures[0]?.procedure ?? expect.fail('there is a procedure'), { draft: true });
  expect(compiled.kind === 'checklist' && compiled.checklist.limits.map(({ profile }) => profile.name)).toEqual([
    'quebec',
  ]);
});
