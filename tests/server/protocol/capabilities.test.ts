import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { formatText } from '@quarrel/language';
import { afterAll, expect, test } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CodeAction,
  CodeLens,
  CompletionList,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InitializeResult,
  InlayHint,
  Location,
  LocationLink,
  Position,
  SelectionRange,
  SemanticTokens,
  ServerCapabilities,
  SignatureHelp,
  TextDocumentContentResult,
  TextEdit,
  WorkspaceEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver-protocol/node';
import { Client } from './client.js';
import { applied } from './edits.js';

const examples = fileURLToPath(new URL('../../../examples', import.meta.url));
const uri = pathToFileURL(`${examples}/draft/faulty-draft.quarrel`).href;
const text = readFileSync(fileURLToPath(uri), 'utf8');
const textDocument = { uri };
const options = { tabSize: 2, insertSpaces: true };

const client = new Client();
const { capabilities }: InitializeResult = await client.initialize({ folders: [examples] });
client.open(uri, text);
await client.settled();
afterAll(() => client.end());

/** The place `into` characters into the first of some words in the draft. */
function placeOf(words: string, into = 1): Position {
  expect(text).toContain(words);
  const before = text.slice(0, text.indexOf(words) + into).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

/** An act in use. */
const use = placeOf('do draw-vacuum', 5);

/** One question to each thing that the server says it can do. What the answers hold in full is proved where each is made. */
const proofs: Readonly<Record<string, () => Promise<void>>> = {
  'textDocumentSync.openClose': async () => {
    const untitled = 'untitled:Untitled-1';
    client.open(untitled, 'procedure "');
    await client.settled();
    expect(client.told(untitled)).not.toEqual([]);
    client.close(untitled);
    await client.until(() => client.told(untitled).length === 0, 'nothing of a sheet that is gone');
  },
  'textDocumentSync.change': async () => {
    expect(capabilities.textDocumentSync).toMatchObject({ change: 2 });
    const line = text.split('\n').length;
    const before = client.told(uri);
    const range = { start: { line, character: 0 }, end: { line, character: 0 } };
    client.edit(uri, [{ range, text: 'proc\n' }], `${text}proc\n`);
    await client.settled();
    expect(client.told(uri).map(({ code }) => code)).toContain('syntax');
    client.write(uri, text);
    await client.settled();
    expect(client.told(uri)).toEqual(before);
  },
  codeActionProvider: async () => {
    const asked = client.told(uri).map(({ range }) =>
      client.request<CodeAction[]>('textDocument/codeAction', {
        textDocument,
        range,
        context: { diagnostics: client.told(uri) },
      }),
    );
    const actions = (await Promise.all(asked)).flat();
    const mended = actions.filter(({ edit, diagnostics = [] }) => edit !== undefined && diagnostics.length > 0);
    expect(mended.length).toBeGreaterThan(0);
  },
  completionProvider: async () => {
    const position = placeOf('do ', 3);
    const list = await client.request<CompletionList>('textDocument/completion', { textDocument, position });
    expect(list.items.map(({ label }) => label)).toContain('draw-vacuum');
  },
  definitionProvider: async () => {
    const [link] = await client.request<LocationLink[]>('textDocument/definition', { textDocument, position: use });
    expect(link?.targetUri).toBe('quarrel:/laminated-glass-acts.quarrel');
  },
  documentHighlightProvider: async () => {
    const position = placeOf('resin fill', 8);
    const marks = await client.request<unknown[]>('textDocument/documentHighlight', { textDocument, position });
    expect(marks.length).toBeGreaterThan(1);
  },
  documentSymbolProvider: async () => {
    const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument });
    expect(symbols.map(({ name }) => name)).toContain('quayside-chip');
  },
  foldingRangeProvider: async () => {
    const ranges = await client.request<FoldingRange[]>('textDocument/foldingRange', { textDocument });
    expect(ranges.some(({ startLine, endLine }) => endLine > startLine)).toBe(true);
  },
  hoverProvider: async () => {
    const hover = await client.request<Hover | null>('textDocument/hover', { textDocument, position: use });
    expect(JSON.stringify(hover?.contents)).toContain('vacuum');
  },
  referencesProvider: async () => {
    const context = { includeDeclaration: true };
    const found = await client.request<Location[]>('textDocument/references', { textDocument, position: use, context });
    expect(new Set(found.map((one) => one.uri)).size).toBeGreaterThan(1);
  },
  renameProvider: async () => {
    const position = placeOf('resin fill', 8);
    expect(await client.request('textDocument/prepareRename', { textDocument, position })).not.toBeNull();
    const params = { textDocument, position, newName: 'filling' };
    const { changes } = await client.request<WorkspaceEdit>('textDocument/rename', params);
    expect(changes?.[uri]?.length).toBeGreaterThan(1);
  },
  workspaceSymbolProvider: async () => {
    const symbols = await client.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'quayside' });
    expect(symbols.map(({ name }) => name).join()).toMatch(/quayside/i);
  },
  callHierarchyProvider: async () => {
    const params = { textDocument, position: use };
    const [item] = await client.request<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', params);
    expect(item?.name).toBe('draw-vacuum');
    const calls = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
    expect(calls.length).toBeGreaterThan(1);
  },
  codeLensProvider: async () => {
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument });
    const line = placeOf('procedure quayside').line;
    expect(lenses.filter(({ range }) => range.start.line === line).length).toBeGreaterThan(0);
  },
  documentFormattingProvider: async () => {
    const untidy = text.replace('      ', ' ');
    client.write(uri, untidy);
    const edits = await client.request<TextEdit[]>('textDocument/formatting', { textDocument, options });
    expect(applied(untidy, edits)).toBe(formatText(untidy, uri).text);
    client.write(uri, text);
    await client.settled();
  },
  documentRangeFormattingProvider: async () => {
    const untidy = text.replaceAll('    step ', '  step ');
    client.write(uri, untidy);
    const range = { start: { line: 0, character: 0 }, end: { line: untidy.split('\n').length, character: 0 } };
    const edits = await client.request<TextEdit[]>('textDocument/rangeFormatting', { textDocument, range, options });
    expect(applied(untidy, edits)).toBe(formatText(untidy, uri).text);
    client.write(uri, text);
    await client.settled();
  },
  documentOnTypeFormattingProvider: async () => {
    const untidy = `${text.trimEnd()}\nprocedure p {\n      step "Wait"\n      }\n`;
    client.write(uri, untidy);
    const position = { line: untidy.split('\n').length - 2, character: 7 };
    const params = { textDocument, position, ch: '}', options };
    const edits = await client.request<TextEdit[]>('textDocument/onTypeFormatting', params);
    expect(applied(untidy, edits)).toContain('\n}\n');
    client.write(uri, text);
    await client.settled();
  },
  documentLinkProvider: async () => {
    const links = await client.request<DocumentLink[]>('textDocument/documentLink', { textDocument });
    expect(links.map(({ target }) => target)).toContain('quarrel:/laminated-glass.quarrel');
  },
  inlayHintProvider: async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 300, character: 0 } };
    expect(
      (await client.request<InlayHint[]>('textDocument/inlayHint', { textDocument, range })).length,
    ).toBeGreaterThan(0);
  },
  selectionRangeProvider: async () => {
    const params = { textDocument, positions: [use] };
    const [selection] = await client.request<SelectionRange[]>('textDocument/selectionRange', params);
    expect(selection?.parent?.parent).toBeDefined();
  },
  signatureHelpProvider: async () => {
    const hurried = `${text.trimEnd()}\nprocedure p {\n  step "Cure" { do cure }\n}\n`;
    client.write(uri, hurried);
    await client.settled();
    const position = { line: hurried.split('\n').length - 3, character: 23 };
    const help = await client.request<SignatureHelp>('textDocument/signatureHelp', { textDocument, position });
    expect(help.signatures[0]?.label).toContain('+ caution uv');
    client.write(uri, text);
    await client.settled();
  },
  semanticTokensProvider: async () => {
    const tokens = await client.request<SemanticTokens>('textDocument/semanticTokens/full', { textDocument });
    expect(tokens.data.length).toBeGreaterThan(500);
  },
  'workspace.workspaceFolders.supported': async () => {
    expect(client.summary?.sheets).toBeGreaterThan(5);
  },
  'workspace.textDocumentContent.schemes': async () => {
    expect(capabilities.workspace?.textDocumentContent).toMatchObject({ schemes: ['quarrel'] });
    const [href] = client.told(uri).flatMap(({ codeDescription }) => codeDescription?.href ?? []);
    const page = await client.request<TextDocumentContentResult>('workspace/textDocumentContent', { uri: href });
    expect(page.text).toMatch(/^# /);
    const sheet = { uri: 'quarrel:/laminated-glass.quarrel' };
    expect((await client.request<TextDocumentContentResult>('workspace/textDocumentContent', sheet)).text).toContain(
      'use',
    );
  },
};

/** What is advertised, by name: each provider, and each single thing where several are told of together. */
function advertised({ textDocumentSync, workspace = {}, ...providers }: ServerCapabilities): readonly string[] {
  const parts = (of: object | undefined, path: string): readonly string[] =>
    Object.entries(of ?? {}).flatMap(([name, value]) => (isOffered(value) ? [`${path}.${name}`] : []));
  return [
    ...(typeof textDocumentSync === 'object' ? parts(textDocumentSync, 'textDocumentSync') : []),
    ...Object.entries(workspace).flatMap(([name, of]) => parts(of, `workspace.${name}`)),
    ...Object.entries(providers).flatMap(([name, value]) => (isOffered(value) ? [name] : [])),
  ];
}

function isOffered(value: unknown): boolean {
  return value !== false && value !== undefined && value !== null;
}

test('there is a question here for everything that is offered, and for nothing else', () => {
  expect(Object.keys(proofs).sort()).toEqual([...advertised(capabilities)].sort());
});

test.each(Object.entries(proofs))('%s', (_, prove) => prove());
