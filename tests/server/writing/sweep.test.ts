import type { SheetDocument } from '@quarrel/language';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Position, ResponseError } from 'vscode-languageserver';
import { codeActions } from '../../../packages/server/src/features/code-actions/code-actions.js';
import { formatter } from '../../../packages/server/src/features/format/format.js';
import { prepareRename, rename } from '../../../packages/server/src/features/rename/rename.js';
import { signatureHelp } from '../../../packages/server/src/features/signature-help/signature-help.js';
import { seed } from '../../analysis/judge/seed.js';
import { createWorld, exampleText, type World } from '../harness.js';
import { itemsAt } from './offered.js';

const options = { tabSize: 2, insertSpaces: true };
let world: World;

beforeAll(async () => {
  world = await createWorld();
  await world.openAll({
    equipment: exampleText('school/equipment'),
    'house-rules': exampleText('school/house-rules'),
  });
});

/** Everything that is asked at a place while somebody writes. Only a refused name may come as an error. */
async function askAt(document: SheetDocument, position: Position): Promise<void> {
  const { quarrel } = world.services;
  const textDocument = { uri: document.uri.toString() };
  for (const { textEdit } of itemsAt(world, document, position)) {
    const range = textEdit !== undefined && 'range' in textEdit ? textEdit.range : undefined;
    expect(range?.start.line).toBe(position.line);
    expect(range?.start.character).toBeLessThanOrEqual(position.character);
    expect(range?.end.character).toBeGreaterThanOrEqual(position.character);
  }
  const help = signatureHelp(document, { position }, quarrel);
  if (help !== undefined) expect(help.activeParameter).toBeLessThan(help.signatures[0]?.parameters?.length ?? 0);
  const range = { start: position, end: position };
  codeActions(document, { textDocument, range, context: { diagnostics: [] } }, quarrel, { snippets: true });
  try {
    if (prepareRename(document, { position }, quarrel) !== undefined) {
      rename(document, { textDocument, position, newName: 'some-new-name' }, quarrel);
    }
  } catch (error) {
    expect(error).toBeInstanceOf(ResponseError);
  }
}

/** What is asked at a place as a key is pressed that can set a line right. */
async function typeAt(document: SheetDocument, position: Position): Promise<void> {
  const textDocument = { uri: document.uri.toString() };
  for (const ch of ['}', ';', '\n'])
    await formatter.formatDocumentOnType(document, { textDocument, position, ch, options });
}

const examples = ['school/stone-chip', 'draft/faulty-draft', 'other-trades/short-crack', 'school/equipment'];

describe('nothing throws', () => {
  test.each(examples)('at places all over %s', async (example) => {
    const text = exampleText(example);
    const document = await world.open('swept', text);
    for (let offset = 0; offset <= text.length; offset += 67)
      await askAt(document, document.textDocument.positionAt(offset));
    for (let offset = 0; offset <= text.length; offset += 1499)
      await typeAt(document, document.textDocument.positionAt(offset));
  });

  test('in sheets of which anything may be missing', async () => {
    const cut = fc.record({
      example: fc.constantFrom(...examples),
      from: fc.double({ min: 0, max: 1, noNaN: true }),
      length: fc.nat(200),
      end: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    await fc.assert(
      fc.asyncProperty(cut, async ({ example, from, length, end }) => {
        const whole = exampleText(example);
        const at = Math.floor(from * whole.length);
        const text = `${whole.slice(0, at)}${whole.slice(at + length)}`.slice(
          0,
          Math.floor((0.3 + 0.7 * end) * whole.length),
        );
        const document = await world.open('cut', text);
        const places = [at - 30, at - 1, at, at + 1, at + 25, text.length].filter(
          (one) => one >= 0 && one <= text.length,
        );
        for (const place of places) await askAt(document, document.textDocument.positionAt(place));
        await typeAt(document, document.textDocument.positionAt(Math.min(at, text.length)));
      }),
      { numRuns: 25, ...seed() },
    );
  });
});
