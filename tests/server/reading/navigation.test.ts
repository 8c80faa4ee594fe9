import { beforeAll, describe, expect, test } from 'vitest';
import { DocumentHighlightKind } from 'vscode-languageserver';
import { createWorld, marked, type World } from '../harness.js';
import { linked, placed, placeIn, provider, whole } from './asking.js';

let world: World;

const shop = `/** The shop's own. */
observation break: star, cone
state cavity: empty, filled
act press { makes cavity filled raises uv }
hazard uv "UV" warning { source "see https://example.org/uv?a=1, and http://example.org/b." }
resin thin "Thin"
rule fill-once { no press after press because "x" }
`;

const job = `use "shop"
use "quarrel:laminated-glass"
use "nowhere"

procedure job "A job" {
  choose resin fill { when break is star: thin }
  waive fill-once because "y"
  waive gap-in-choice because "z"
  stage "All of it" {
    step look "Look" { observe break }
    when break is star { step again "Press" { do press with fill; hold 1 min; meanwhile { step "Wait" { takes 5 s } } } }
    step last "Once more" { do press, press; check "Full" confirms cavity filled }
  }
}

variation other of job { omit step look because "w" }
`;

beforeAll(async () => {
  world = await createWorld();
  await world.openAll({ shop, job });
});

/** The place in the sheet right behind \`before\`. */
function behind(name: string, before: string) {
  const document = world.sheet(name);
  const at = document.textDocument.getText().indexOf(before);
  if (at < 0) throw new Error(`"${before}" is not in ${name}`);
  return placed(document, document.textDocument.positionAt(at + before.length));
}

async function definitions(name: string, before: string): Promise<readonly string[]> {
  const links = await provider(world, 'DefinitionProvider').getDefinition(world.sheet(name), behind(name, before));
  return (links ?? []).map((link) => linked(world, link));
}

async function usages(name: string, before: string, includeDeclaration: boolean): Promise<readonly string[]> {
  const params = { ...behind(name, before), context: { includeDeclaration } };
  const found = await provider(world, 'ReferencesProvider').findReferences(world.sheet(name), params);
  return found.map(({ uri, range }) => placeIn(world, uri, range));
}

describe('definitions', () => {
  test.each([
    ['do pre', ['shop:4: press']],
    ['{ when break is st', ['shop:2: star']],
    ['confirms cavity fi', ['shop:3: filled']],
    ['with fi', ['job:6: fill']],
    [': th', ['shop:6: thin']],
    ['waive fill-o', ['shop:7: fill-once']],
    ['omit step lo', ['job:10: look']],
    ['variation other of j', ['job:5: job']],
    ['procedure jo', ['job:5: job']],
    ['use "sh', ['shop:1: ']],
    ['use "quarrel:lam', ['laminated-glass:1: ']],
    ['use "now', []],
    ['stag', []],
  ])('behind "%s"', async (before, expected) => {
    expect(await definitions('job', before)).toEqual(expected);
  });

  test("a rule of Quarrel's own leads to its page", async () => {
    const links = await provider(world, 'DefinitionProvider').getDefinition(
      world.sheet('job'),
      behind('job', 'waive gap-'),
    );
    expect(links?.map(({ targetUri }) => targetUri)).toEqual(['quarrel:/rules/gap-in-choice.md']);
  });

  test('of what ships lead into the sheets that ship', async () => {
    await world.open(
      'trade',
      'use "quarrel:laminated-glass"\nprocedure p { step "x" { do cure; waive cure-after-fill because "a" } }',
    );
    expect(await definitions('trade', 'do cu')).toEqual([expect.stringMatching(/^laminated-glass-acts:\d+: cure$/)]);
    expect(await definitions('trade', 'waive cure-a')).toEqual([
      expect.stringMatching(/^laminated-glass-acts:\d+: cure-after-fill$/),
    ]);
  });
});

describe('references', () => {
  test('over sheets, the declaration first', async () => {
    const all = ['shop:7: press', 'shop:7: press', 'job:11: press', 'job:12: press', 'job:12: press'];
    expect(await usages('job', 'do pre', false)).toEqual(all);
    expect(await usages('shop', 'act pre', true)).toEqual(['shop:4: press', ...all]);
  });

  test.each([
    ['job', 'step lo', ['job:10: look', 'job:16: look']],
    ['shop', 'observation break: st', ['shop:2: star', 'job:6: star', 'job:11: star']],
    ['job', 'choose resin fi', ['job:6: fill', 'job:11: fill']],
    ['shop', 'rule fill-o', ['shop:7: fill-once', 'job:7: fill-once']],
    ['shop', 'hazard u', ['shop:5: uv', 'shop:4: uv']],
  ])('%s: "%s"', async (name, before, expected) => {
    expect(await usages(name, before, true)).toEqual(expected);
  });

  test("of a rule of Quarrel's own: where it is waived", async () => {
    expect(await usages('job', 'waive gap-', true)).toEqual(['job:8: gap-in-choice']);
  });
});

test('highlights tell what gives a value from what asks for it', async () => {
  const read = async (before: string) =>
    (
      await provider(world, 'DocumentHighlightProvider').getDocumentHighlight(world.sheet('job'), behind('job', before))
    )?.map(({ range, kind }) => `${range.start.line + 1} ${kind === DocumentHighlightKind.Write ? 'gives' : 'asks'}`);
  expect(await read('observe bre')).toEqual(['6 asks', '10 gives', '11 asks']);
  expect(await read('choose resin fi')).toEqual(['6 gives', '11 asks']);
});

test('links of a sheet: what it uses, and addresses in sources', async () => {
  const links = async (name: string) =>
    (await provider(world, 'DocumentLinkProvider').getDocumentLinks(world.sheet(name), whole(world.sheet(name)))).map(
      ({ target, range }) => `${range.start.line + 1}: ${world.sheet(name).textDocument.getText(range)} ${target}`,
    );
  expect(await links('job')).toEqual([
    '1: "shop" file:///work/shop.quarrel',
    '2: "quarrel:laminated-glass" quarrel:/laminated-glass.quarrel',
  ]);
  expect(await links('shop')).toEqual([
    '5: https://example.org/uv?a=1 https://example.org/uv?a=1',
    '5: http://example.org/b http://example.org/b',
  ]);
});

describe('calls', () => {
  const calls = () => provider(world, 'CallHierarchyProvider');
  const prepared = async (name: string, before: string) => {
    const [item] = (await calls().prepareCallHierarchy(world.sheet(name), behind(name, before))) ?? [];
    if (item === undefined) throw new Error(`nothing calls behind ${before}`);
    return item;
  };
  const incoming = async (name: string, before: string) =>
    ((await calls().incomingCalls({ item: await prepared(name, before) })) ?? []).map(
      ({ from, fromRanges }) => `${from.name} ×${fromRanges.length}`,
    );
  const outgoing = async (name: string, before: string) =>
    ((await calls().outgoingCalls({ item: await prepared(name, before) })) ?? []).map(
      ({ to, fromRanges }) => `${to.name} ×${fromRanges.length}`,
    );

  test('an act is done by steps of every sheet', async () => {
    expect(await incoming('shop', 'act pre')).toEqual(['Press ×1', 'Once more ×2']);
    expect(await outgoing('shop', 'act pre')).toEqual([]);
  });

  test('a step does acts, and steps during its hold', async () => {
    expect(await outgoing('job', 'step aga')).toEqual(['press ×1', 'Wait ×1']);
    expect(await outgoing('job', 'step las')).toEqual(['press ×2']);
    expect(await incoming('job', 'step aga')).toEqual(['All of it ×1']);
    expect(await incoming('job', '"Wai')).toEqual(['Press ×1']);
  });

  test('a stage stands between its steps and the procedure', async () => {
    expect(await outgoing('job', 'stage "All')).toEqual(['Look ×1', 'Press ×1', 'Once more ×1']);
    expect(await incoming('job', 'stage "All')).toEqual(['job ×1']);
    expect(await outgoing('job', 'procedure jo')).toEqual(['All of it ×1']);
    expect(await incoming('job', 'procedure jo')).toEqual([]);
  });

  test('an item of a sheet that has changed leads nowhere wrong', async () => {
    const item = await prepared('job', 'step las');
    await world.open('job', job.replace('stage "All of it" {', 'stage "All of it" {\n\n'));
    expect(await calls().outgoingCalls({ item })).toEqual([]);
    await world.open('job', job);
  });
});

describe('symbols', () => {
  const sought = async (query: string) =>
    ((await world.services.shared.lsp.WorkspaceSymbolProvider?.getSymbols({ query })) ?? []).map(
      ({ name, containerName }) => `${containerName}: ${name}`,
    );

  test('are found by name and by label, by letters in order, the nearest first', async () => {
    expect((await sought('press-resin'))[0]).toBe('laminated-glass-acts.quarrel: press-resin · Press resin in');
    expect(await sought('a job')).toContain('job.quarrel: job · A job');
    expect(await sought('onmr')).toContain('job: Once more · last');
    expect(await sought('zzzz')).toEqual([]);
  });

  test('of everything there is, also of what ships', async () => {
    const all = await sought('');
    expect(all.length).toBeGreaterThan(150);
    expect(all.length).toBeLessThanOrEqual(500);
  });
});

test('a name that means nothing leads nowhere', async () => {
  const { text, cursor } = marked('procedure p { step "x" { do nob<|>ody } }');
  const document = await world.open('lost', text);
  expect(await provider(world, 'DefinitionProvider').getDefinition(document, placed(document, cursor))).toEqual([]);
  const params = { ...placed(document, cursor), context: { includeDeclaration: true } };
  expect(await provider(world, 'ReferencesProvider').findReferences(document, params)).toEqual([]);
});
