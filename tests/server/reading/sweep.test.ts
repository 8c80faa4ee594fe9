import type { SheetDocument } from '@quarrel/language';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Position } from 'vscode-languageserver';
import { selectionRanges } from '../../../packages/server/src/features/selection-ranges.js';
import { seed } from '../../analysis/judge/seed.js';
import { createWorld, exampleText, type World } from '../harness.js';
import { hoverAt, placed, provider, whole } from './asking.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
  await world.openAll({
    equipment: exampleText('school/equipment'),
    'house-rules': exampleText('school/house-rules'),
  });
});

/** Everything that is asked about a place. Fails where a provider throws, or answers with what is not in the sheet. */
async function askAt(document: SheetDocument, position: Position): Promise<void> {
  const params = placed(document, position);
  const lines = document.textDocument.lineCount;
  const context = { includeDeclaration: true };
  expect(await hoverAt(world, document, position)).not.toMatch(/undefined|\[object|NaN/);
  await provider(world, 'DefinitionProvider').getDefinition(document, params);
  const highlights = await provider(world, 'DocumentHighlightProvider').getDocumentHighlight(document, params);
  for (const { range } of highlights ?? []) expect(range.end.line).toBeLessThan(lines);
  await provider(world, 'ReferencesProvider').findReferences(document, { ...params, context });
  selectionRanges(document, { ...params, positions: [position] });
  const calls = provider(world, 'CallHierarchyProvider');
  for (const item of (await calls.prepareCallHierarchy(document, params)) ?? []) {
    await calls.incomingCalls({ item });
    await calls.outgoingCalls({ item });
  }
}

/** Everything that is asked about a sheet. */
async function askAll(document: SheetDocument): Promise<void> {
  const params = whole(document);
  const lines = document.textDocument.lineCount;
  await provider(world, 'DocumentSymbolProvider').getSymbols(document, params);
  for (const { startLine, endLine } of await provider(world, 'FoldingRangeProvider').getFoldingRanges(
    document,
    params,
  )) {
    expect(startLine).toBeLessThan(endLine);
    expect(endLine).toBeLessThan(lines);
  }
  for (const { position } of (await provider(world, 'InlayHintProvider').getInlayHints(document, params)) ?? []) {
    expect(position.line).toBeLessThan(lines);
  }
  await provider(world, 'CodeLensProvider').provideCodeLens(document, params);
  await provider(world, 'DocumentLinkProvider').getDocumentLinks(document, params);
  const { data } = await provider(world, 'SemanticTokenProvider').semanticHighlight(document, params);
  expect(data.every((number) => number >= 0)).toBe(true);
}

describe('every place of a sheet', () => {
  test.each(['school/stone-chip', 'draft/faulty-draft'])('%s', async (path) => {
    const document = await world.open('swept', exampleText(path));
    await askAll(document);
    const { textDocument } = document;
    const length = textDocument.getText().length;
    for (let offset = 0; offset <= length; offset += 1) await askAt(document, textDocument.positionAt(offset));
  });

  test('of a sheet that ships', async () => {
    for (const name of ['quarrel:laminated-glass-acts', 'quarrel:laminated-glass-rules']) {
      const document = world.sheet(name);
      const { textDocument } = document;
      await askAll(document);
      const length = textDocument.getText().length;
      for (let offset = 0; offset <= length; offset += 5) await askAt(document, textDocument.positionAt(offset));
    }
  });
});

test('a procedure that is too tangled to be run is answered for', async () => {
  const legs = [1, 2, 3, 4, 5, 6];
  const text = `observation break: star, cone
${legs.map((leg) => `state leg-${leg}: closed, open, wetted, filled, cured`).join('\n')}
act hand-over { needs ${legs.map((leg) => `leg-${leg} is cured`).join(' or ')} }
resin thin
procedure tangled {
  choose resin some { when break is star: thin; otherwise: thin }
  stage "All" {
    step "Look" { observe break; with some }
    when break is star { step "Hand over" { do hand-over } } otherwise { stop "No." }
    repeat at most 2 times until "Seen" { step "Wait" { hold 5 s } }
  }
}`;
  const document = await world.open('tangled', text);
  const [report] = world.services.quarrel.check.Checks.of(document).procedures;
  expect(report?.interpretation.kind).toBe('too-tangled');
  await askAll(document);
  const { textDocument } = document;
  const length = textDocument.getText().length;
  for (let offset = 0; offset <= length; offset += 11) await askAt(document, textDocument.positionAt(offset));
});

describe('a sheet of which a piece is cut out', () => {
  const cut = fc.record({
    path: fc.constantFrom('school/stone-chip', 'draft/faulty-draft', 'other-trades/short-crack', 'school/equipment'),
    from: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.integer({ min: 1, max: 400 }),
    places: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 12, maxLength: 12 }),
  });

  test('is answered for', async () => {
    await fc.assert(
      fc.asyncProperty(cut, async ({ path, from, length, places }) => {
        const text = exampleText(path);
        const start = Math.floor(from * text.length);
        const document = await world.open('cut', text.slice(0, start) + text.slice(start + length));
        await askAll(document);
        const { textDocument } = document;
        const end = textDocument.getText().length;
        // Around the cut, and anywhere.
        const offsets = [start - 1, start, start + 1, ...places.map((place) => Math.floor(place * end))];
        for (const offset of offsets) await askAt(document, textDocument.positionAt(offset));
      }),
      { numRuns: 60, ...seed() },
    );
  });

  test('to its first half, line by line', async () => {
    const lines = exampleText('draft/faulty-draft').split('\n');
    for (let count = 0; count < lines.length; count += 9) {
      const document = await world.open('cut', lines.slice(0, count).join('\n'));
      await askAll(document);
      await askAt(document, { line: Math.max(0, count - 1), character: 4 });
    }
  });
});
