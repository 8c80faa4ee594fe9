import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

test('the generated files are what the grammar yields, without warnings', () => {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const { status, stdout, stderr } = spawnSync(process.execPath, ['.scripts/generate.mjs', '--check'], {
    cwd: root,
    encoding: 'utf8',
  });
  expect(`${stdout}${stderr}`).toBe('Generated files are up to date.\n');
  expect(status).toBe(0);
});
