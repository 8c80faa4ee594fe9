import { ast, isSheetDocument, type SheetDocument } from '@quarrel/language';
import { type AstNode, AstUtils, GrammarUtils, TextDocument } from 'langium';
import { describe, expect, test } from 'vitest';
import { ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { prepareRename, rename } from '../../../packages/server/src/features/rename/rename.js';
import { addressOf, createWorld, exampleText, marked, type World } from '../harness.js';

/** Renames what stands at the mark in one of some sheets; gives the texts, or the reason for a refusal. */
async function renamed(
  sources: Readonly<Record<string, string>>,
  newName: string,
): Promise<Readonly<Record<string, string>> | string> {
  const world = await createWorld();
  const where = Object.entries(sources).find(([, source]) => source.includes('<|>'));
  if (where === undefined) throw new Error('no sheet has a mark');
  const { text, cursor: position } = marked(where[1]);
  const texts = { ...sources, [where[0]]: text };
  const sheets = await world.openAll(texts);
  const document = sheets.get(where[0]);
  if (document === undefined) throw new Error('the sheet is open');
  try {
    const params = { textDocument: { uri: document.uri.toString() }, position };
    if (prepareRename(document, params, world.services.quarrel) === undefined) return 'nothing here has a name';
    return applied(texts, rename(document, { ...params, newName }, world.services.quarrel));
  } catch (error) {
    if (error instanceof ResponseError) return error.message;
    throw error;
  }
}

function applied(
  texts: Readonly<Record<string, string>>,
  edit: WorkspaceEdit | undefined,
): Readonly<Record<string, string>> {
  const changes = edit?.changes ?? {};
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => {
      const document = TextDocument.create(addressOf(name), 'quarrel', 0, text);
      return [name, TextDocument.applyEdits(document, changes[addressOf(name)] ?? [])];
    }),
  );
}

const shop = `act dr<|>aw "draw" { needs seal is tight as no-leak because "draw"; makes cavity evacuated }
state seal: off, tight
state cavity: empty, evacuated
resin thin
limits narrow { allows zone is edge }
observation zone: edge, elsewhere
`;
const job = `use "shop"
procedure p "draw" {
  within limits narrow
  choose resin fill { when zone is edge: thin; otherwise: thin }
  step look "draw" { observe zone }
  step "Draw" { do draw with fill; waive no-leak because "draw" }
}
example "One" of p { has step look; uses thin }
`;

/** The sheets with the mark moved into the first of some words. */
function at(words: string, sheet: 'shop' | 'job'): Record<string, string> {
  const texts = { shop: shop.replace('<|>', ''), job };
  const text = texts[sheet];
  const place = text.indexOf(words);
  if (place < 0) throw new Error(`${words} is not there`);
  return { ...texts, [sheet]: `${text.slice(0, place + 1)}<|>${text.slice(place + 1)}` };
}

describe('in every sheet that speaks of it', () => {
  test('an act, from its declaration: texts and labels stay', async () => {
    const texts = await renamed(at('draw "draw"', 'shop'), 'pull');
    expect(texts).toEqual({
      shop: shop.replace('<|>', '').replace('act draw', 'act pull'),
      job: job.replace('do draw', 'do pull'),
    });
  });

  test.each([
    ['an act, from a use', 'draw with', 'draw', 'pull'],
    ['a need, from a waiver', 'no-leak because', 'no-leak', 'tight-first'],
    ['a step, from an example', 'look;', 'look', 'first-look'],
    ['a choice', 'fill {', 'fill', 'filler'],
    ['a thing', 'thin;', 'thin', 'runny'],
    ['a condition', 'zone is edge: thin', 'zone', 'place'],
    ['a value', 'edge: thin', 'edge', 'rim'],
    ['limits', 'narrow\n', 'narrow', 'wide'],
    ['a procedure', 'p "draw"', 'p', 'chip'],
  ])('%s', async (_, words, name, newName) => {
    const texts = await renamed(at(words, 'job'), newName);
    const isWord = new RegExp(`(?<![\\w"-])${name}(?![\\w-])(?!")`, 'g');
    const outside = (text: string): string =>
      text
        .split('"')
        .map((part, index) => (index % 2 === 0 ? part.replace(isWord, newName) : part))
        .join('"');
    const before = at(words, 'job');
    expect(texts).toEqual({
      shop: outside(before.shop ?? ''),
      job: outside((before.job ?? '').replace('<|>', '')),
    });
  });
});

describe('refused, with the reason', () => {
  test.each([
    [
      'what ships',
      { job: 'use "quarrel:laminated-glass"\nprocedure p { step "A" { do cu<|>re } }' },
      'set',
      /comes with Quarrel.*declare your own act/,
    ],
    ['what is no name', at('draw "draw"', 'shop'), 'pull it', /is no name/],
    ['what is no name, either', at('draw "draw"', 'shop'), '2nd', /is no name/],
    [
      'the name of another act',
      { shop: 'act dr<|>aw\nact pull' },
      'pull',
      /already the name of an act in shop.quarrel, line 2/,
    ],
    [
      'a name that another sheet has that sees both',
      { shop: 'act dr<|>aw', job: 'use "shop"\n\nact pull' },
      'pull',
      /an act in job.quarrel, line 3/,
    ],
    ['the name of another value', { shop: 'state cavity: em<|>pty, filled' }, 'filled', /already the name of a value/],
    [
      'the name of another step',
      { shop: 'procedure p { step lo<|>ok "A"; step lift "B" }' },
      'lift',
      /already the name of a step/,
    ],
    [
      'the name of a choice',
      { shop: 'resin th<|>in\nprocedure p { choose resin fill { otherwise: thin } }' },
      'fill',
      /choice of a resin/,
    ],
    [
      'the name of a thing',
      { shop: 'resin thin\nprocedure p { choose resin fi<|>ll { otherwise: thin } }' },
      'thin',
      /already the name of a resin/,
    ],
    ['a rule of Quarrel', { shop: 'act a { needs always as fi<|>rst }' }, 'gap-in-choice', /Quarrel's own/],
    ['a word of the language that would be misread', { shop: 'state cavity: em<|>pty, filled' }, 'not', /misread/],
  ] as const)('%s', async (_, sources, newName, reason) => {
    expect(await renamed(sources, newName)).toMatch(reason);
  });

  test('a word of the language where it cannot be misread is taken', async () => {
    expect(await renamed({ shop: 'act dr<|>aw\nprocedure p { step "A" { do draw } }' }, 'hold')).toEqual({
      shop: 'act hold\nprocedure p { step "A" { do hold } }',
    });
  });

  test('words and texts have no other name', async () => {
    expect(await renamed({ shop: 'procedure p { st<|>ep "A" }' }, 'x')).toBe('nothing here has a name');
    expect(await renamed({ shop: 'procedure p { step "A<|>b" }' }, 'x')).toBe('nothing here has a name');
  });
});

describe('every name of the examples', () => {
  const paths = ['school/equipment', 'school/house-rules', 'school/surface-pit', 'other-trades/headlamp-lens'];
  const texts = Object.fromEntries(paths.map((path) => [path.split('/')[1] ?? path, exampleText(path)]));
  const fresh = 'a-name-nobody-has';

  /** What is found, in words and without the name. */
  function found(world: World, name: string): readonly string[] {
    return Object.keys(texts).flatMap((sheet) =>
      world.services.quarrel.check.Checks.of(world.sheet(sheet)).findings.map(
        ({ rule, message, severity }) => `${rule} ${severity} ${message.split(fresh).join(name)}`,
      ),
    );
  }

  function namedIn(document: SheetDocument): readonly (AstNode & { readonly name: string })[] {
    return AstUtils.streamAllContents(document.parseResult.value)
      .filter(
        (node): node is AstNode & { readonly name: string } =>
          'name' in node && typeof node.name === 'string' && !ast.isChooseCase(node),
      )
      .toArray();
  }

  test('there and back is as it was, and what is found is the same but for the name', async () => {
    const world = await createWorld();
    await world.openAll(texts);
    const places = Object.keys(texts).flatMap((sheet) =>
      namedIn(world.sheet(sheet)).flatMap((node) => {
        const place = GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
        return place === undefined ? [] : [{ sheet, name: node.name, position: place.range.start }];
      }),
    );
    expect(places.length).toBeGreaterThan(60);
    for (const [at, { sheet, name, position }] of places.entries()) {
      const to = async (
        newName: string,
        from: Readonly<Record<string, string>>,
      ): Promise<Readonly<Record<string, string>>> => {
        const document = world.sheet(sheet);
        const params = { textDocument: { uri: document.uri.toString() }, position, newName };
        return applied(from, rename(document, params, world.services.quarrel));
      };
      const there = await to(fresh, texts);
      expect(there).not.toEqual(texts);
      // Building and checking is dear: what is found is compared for every sixth name.
      const before = at % 6 === 0 ? found(world, name) : [];
      await world.openAll(there);
      if (at % 6 === 0) expect(found(world, name)).toEqual(before);
      expect(await to(name, there)).toEqual(texts);
      await world.openAll(texts);
      expect(isSheetDocument(world.sheet(sheet))).toBe(true);
    }
  });
});
