import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeFiles, run } from '@quarrel/cli';
import { expect, test } from 'vitest';

const page = new URL('../README.md', import.meta.url).pathname;

test('the ten lines of the README yield what it says', async () => {
  const text = readFileSync(page, 'utf8');
  const sheet = /```quarrel\n([\s\S]*?)```/.exec(text)?.[1] ?? '';
  expect(sheet.split('\n').filter((line) => line.trim() !== '')).toHaveLength(10);
  const folder = mkdtempSync(join(tmpdir(), 'readme-'));
  try {
    writeFileSync(join(folder, 'chip.quarrel'), sheet);
    const written: string[] = [];
    const output = { write: (more: string) => void written.push(more), colours: false };
    const code = await run(['check', 'chip.quarrel'], {
      cwd: folder,
      stdout: output,
      stderr: output,
      files: nodeFiles((work) => work()),
      debug: false,
      serve: () => Promise.reject(new Error('nothing is served here')),
    });
    expect(code).toBe(1);
    const recorded = text.replace(/```text\n[\s\S]*?```/, () => `\`\`\`text\n${written.join('')}\`\`\``);
    if (process.env.QUARREL_RECORD === '1') writeFileSync(page, recorded);
    expect(readFileSync(page, 'utf8')).toBe(recorded);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
