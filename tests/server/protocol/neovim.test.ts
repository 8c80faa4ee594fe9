import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver-protocol/node';
import { serve } from './client.js';
import { foundAfresh, heard } from './expected.js';
import { workshop } from './folders.js';

interface Told {
  readonly code: string;
  readonly severity: 1 | 2 | 3 | 4;
  readonly place: readonly [number, number, number, number];
  readonly message: string;
}

const { folderWith } = workshop();

/** What Neovim was told, as the protocol writes it. Neovim counts bytes where the protocol counts units of UTF-16. */
function asDiagnostics(told: readonly Told[], text: string): readonly Diagnostic[] {
  const lines = text.split('\n');
  const position = (line: number, bytes: number) => ({
    line,
    character: Buffer.from(lines[line] ?? '')
      .subarray(0, bytes)
      .toString().length,
  });
  return told.map(({ code, severity, message, place: [line, column, endLine, endColumn] }) => ({
    code,
    severity,
    message,
    range: { start: position(line, column), end: position(endLine, endColumn) },
  }));
}

test('Neovim is told what the command tells, as it types', async () => {
  const text = readFileSync(new URL('../../../examples/draft/faulty-draft.quarrel', import.meta.url), 'utf8');
  const { path, uri } = folderWith({ 'draft.quarrel': text });
  const report = join(path, 'report.json');
  const script = fileURLToPath(new URL('neovim.lua', import.meta.url));
  const { status, stderr } = spawnSync('nvim', ['--clean', '--headless', '-S', script], {
    cwd: path,
    encoding: 'utf8',
    timeout: 100_000,
    env: { ...process.env, SHEET: join(path, 'draft.quarrel'), REPORT: report, SERVER: JSON.stringify(serve) },
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  const { opened, hover, broken, mended } = JSON.parse(readFileSync(report, 'utf8'));
  const address = uri('draft.quarrel');
  const expected = (await foundAfresh({ [address]: text }, path))[address];
  expect(heard(asDiagnostics(opened, text))).toEqual(expected);
  expect(heard(asDiagnostics(mended, text))).toEqual(expected);
  expect(hover).toContain('vacuum');
  const changed = `prozedure "Trüb 🪟" {\n${text}`;
  const expectedOfBroken = (await foundAfresh({ [address]: changed }, path))[address];
  expect(heard(asDiagnostics(broken, changed))).toEqual(expectedOfBroken);
});
