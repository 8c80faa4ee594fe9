import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { CancellationTokenSource, type DocumentSymbol, LSPErrorCodes } from 'vscode-languageserver-protocol/node';
import { singleProcedure } from '../../speed/editor-sheets.js';
import { foundAfresh, heard } from './expected.js';
import { workshop } from './folders.js';

const { folderWith, start } = workshop();
const draftPath = fileURLToPath(new URL('../../../examples/draft/faulty-draft.quarrel', import.meta.url));
const draft = readFileSync(draftPath, 'utf8');
/** What takes the server long enough to be disturbed. */
const big = singleProcedure(4_000).text;
const small = 'observation rain: yes, no\nprocedure dry { when rain is yes { step "Wait" } }\n';

describe('a check can be disturbed', () => {
  test('by taking a question back: it ends, answered or taken back, and the server goes on', async () => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    client.open(uri('big.quarrel'), big);
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: uri('big.quarrel') } };
    const asked = client.connection.sendRequest('textDocument/documentSymbol', params, source.token);
    source.cancel();
    await asked.then(
      (symbols) => expect(symbols).toBeInstanceOf(Array),
      (error: unknown) => expect(error).toMatchObject({ code: LSPErrorCodes.RequestCancelled }),
    );
    await client.settled();
    expect(await client.request('textDocument/documentSymbol', params)).not.toEqual([]);
  });

  test('by closing the sheet: what is on disk counts again', async () => {
    const { path, uri } = folderWith({ 'sheet.quarrel': small });
    const client = await start({ folders: [path] });
    await client.until(() => client.told(uri('sheet.quarrel')).length > 0, 'findings of the sheet on disk');
    const before = heard(client.told(uri('sheet.quarrel')));
    client.open(uri('sheet.quarrel'), big);
    client.close(uri('sheet.quarrel'));
    client.open(uri('other.quarrel'), small);
    await client.settled();
    expect(heard(client.told(uri('sheet.quarrel')))).toEqual(before);
    expect(client.published.filter((one) => one.uri === uri('sheet.quarrel')).at(-1)?.version).toBeUndefined();
  });

  test('by many edits at once: only the last is told of, and nothing older behind it', async () => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    const sheet = uri('sheet.quarrel');
    client.open(sheet, small);
    await client.settled();
    let text = small;
    for (let edit = 0; edit < 300; edit++) {
      const at = { line: 0, character: 'observation rain: yes'.length };
      text = text.replace('yes', `yes, v${edit}`);
      client.edit(sheet, [{ range: { start: at, end: at }, text: `, v${edit}` }], text);
    }
    await client.settled();
    const versions = client.published.flatMap((one) => (one.uri === sheet ? (one.version ?? []) : []));
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(versions.at(-1)).toBe(301);
    expect(versions.length).toBeLessThan(100);
    expect(heard(client.told(sheet))).toEqual((await foundAfresh({ [sheet]: text }, path))[sheet]);
  });
});

describe('no answer is of an older text than the question', () => {
  test('also while a check of an older text is under way', async () => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    const sheet = uri('sheet.quarrel');
    let text = singleProcedure(1_000).text;
    client.open(sheet, text);
    await client.settled();
    const top = { line: 0, character: 0 };
    const asked: Promise<void>[] = [];
    for (let round = 1; round <= 25; round++) {
      text = `\n${text}`;
      client.edit(sheet, [{ range: { start: top, end: top }, text: '\n' }], text);
      const question = client.request<DocumentSymbol[]>('textDocument/documentSymbol', {
        textDocument: { uri: sheet },
      });
      asked.push(question.then(([first]) => expect(first?.range.start.line).toBeGreaterThanOrEqual(round)));
      await new Promise((resolve) => setTimeout(resolve, (round * 7) % 60));
      await Promise.all(asked.splice(0, round % 3 === 0 ? asked.length : 0));
    }
    await Promise.all(asked);
  });

  test('also of a sheet that has only just been opened', async () => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    for (const name of ['big.quarrel', 'small.quarrel']) {
      client.open(uri(name), name === 'big.quarrel' ? big : small);
      const params = { textDocument: { uri: uri(name) } };
      expect(await client.request<DocumentSymbol[]>('textDocument/documentSymbol', params)).not.toEqual([]);
    }
  });
});

describe('edits that are not in order', () => {
  test.each([
    ['of an older text', (uri: string) => ({ textDocument: { uri, version: 3 }, contentChanges: [{ text: 'old' }] })],
    [
      'of a sheet that is not open',
      (uri: string) => ({ textDocument: { uri: `${uri}.quarrel`, version: 9 }, contentChanges: [{ text: 'x' }] }),
    ],
    ['without any change', (uri: string) => ({ textDocument: { uri, version: 8 }, contentChanges: [] })],
  ])('%s change nothing', async (_, change) => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    const sheet = uri('sheet.quarrel');
    client.open(sheet, draft, 7);
    await client.settled();
    const before = heard(client.told(sheet));
    client.notify('textDocument/didChange', change(sheet));
    client.open(uri('other.quarrel'), small);
    await client.checkedAfter(() => client.write(uri('other.quarrel'), ''));
    expect(heard(client.told(sheet))).toEqual(before);
    client.write(sheet, small);
    client.write(sheet, draft);
    await client.settled();
    expect(heard(client.told(sheet))).toEqual(before);
  });

  test('beyond the end reach to the end', async () => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    const sheet = uri('sheet.quarrel');
    client.open(sheet, small);
    const range = { start: { line: 1, character: 9_999 }, end: { line: 9_999, character: 9 } };
    client.edit(sheet, [{ range, text: '\nproc' }], '');
    await client.settled();
    const text = `${small.trimEnd()}\nproc`;
    expect(heard(client.told(sheet))).toEqual((await foundAfresh({ [sheet]: text }, path))[sheet]);
  });
});

describe('where sheets stand', () => {
  test('without an open folder a sheet is checked all the same', async () => {
    const client = await start();
    const uri = pathToFileURL(draftPath).href;
    client.open(uri, draft);
    await client.settled();
    expect(heard(client.told(uri))).toEqual((await foundAfresh({ [uri]: draft }, new URL('.', uri).href))[uri]);
  });

  test('a sheet that was never saved has findings until it is closed', async () => {
    const client = await start();
    client.open('untitled:Untitled-1', small);
    await client.settled();
    expect(client.told('untitled:Untitled-1').map(({ code }) => code)).toContain('unread-condition');
    client.close('untitled:Untitled-1');
    await client.until(() => client.told('untitled:Untitled-1').length === 0, 'nothing of a sheet that is gone');
  });

  test('files that are no sheets do not keep the others from being checked', async () => {
    const { path, uri } = folderWith({
      'good.quarrel': small,
      'latin.quarrel': Buffer.from('procedure caf\xe9 {}', 'latin1'),
      'program.quarrel': Buffer.from([0, 1, 2, 3]),
      'uses.quarrel': 'use "latin"\nuse "folder"\n',
    });
    mkdirSync(join(path, 'folder.quarrel'));
    const client = await start({ folders: [path] });
    await client.until(() => client.told(uri('uses.quarrel')).length > 0, 'findings of a sheet beside them');
    expect(client.told(uri('good.quarrel')).map(({ code }) => code)).toContain('unread-condition');
    expect(client.told(uri('uses.quarrel')).map(({ code }) => code)).toEqual(['unknown-sheet', 'unknown-sheet']);
    expect(client.told(uri('latin.quarrel'))).toEqual([]);
  });
});

describe('texts of every kind', () => {
  const faulty = 'observation rain "Rain": yes, no\nprocedure dry "Dry" {\n  when rain is yes { step "Wait" }\n}\n';
  test.each([
    ['lines that end as on Windows', faulty.replaceAll('\n', '\r\n')],
    ['lines that end as on old machines', faulty.replaceAll('\n', '\r')],
    ['a mark at the beginning', `\uFEFF${faulty}`],
    ['characters of two units', faulty.replace('"Dry"', '"🪟🔧"').replace('when', '/* 🪟🔧 */ when')],
    ['letters put together', faulty.replace('"Dry"', '"e\u0301\u0323"').replace('when', '/* e\u0301 \u202e */ when')],
    ['half a character', faulty.replace('"Dry"', '"\ud83e"').replace('when', '/* \udd87 */ when')],
    ['a line of a million letters', `${faulty}// ${'long '.repeat(200_000)}\n`],
    ['a name of a million letters', faulty.replace('dry', 'd'.repeat(1_000_000))],
    ['a million words on one line', `${faulty}${'x 1 '.repeat(250_000)}\n`],
    ['nothing', ''],
  ])('%s', async (_, text) => {
    const { path, uri } = folderWith({});
    const client = await start({ folders: [path] });
    const sheet = uri('sheet.quarrel');
    client.open(sheet, text);
    await client.settled();
    const expected = (await foundAfresh({ [sheet]: text }, path))[sheet] ?? [];
    expect(heard(client.told(sheet))).toEqual(expected);
    expect(expected.length > 0).toBe(text !== '');
  });
});
