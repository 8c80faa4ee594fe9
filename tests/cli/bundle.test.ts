import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { Client } from '../server/protocol/client.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const command = join(root, 'packages/cli/bin/quarrel.js');
const draft = join(root, 'examples/draft');
const work = mkdtempSync(join(tmpdir(), 'quarrel-bundle-'));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** This Node, and the one that the machine has where it is of the oldest line that the command is made for. */
function nodes(): readonly string[] {
  const onPath = (process.env.PATH ?? '')
    .split(delimiter)
    .filter((folder) => !folder.includes('node_modules'))
    .map((folder) => join(folder, 'node'))
    .find((path) => existsSync(path));
  const version = onPath === undefined ? '' : spawnSync(onPath, ['--version'], { encoding: 'utf8' }).stdout;
  return [process.execPath, ...(onPath !== undefined && version.startsWith('v20.') ? [onPath] : [])];
}

describe.each(nodes())('the bundle on %s', (node) => {
  const quarrel = (...argv: readonly string[]) =>
    spawnSync(node, [command, ...argv], { cwd: draft, encoding: 'utf8', env: { PATH: process.env.PATH } });

  test('checks', () => {
    const { status, stdout, stderr } = quarrel('check', '.');
    expect({ status, stderr }).toEqual({ status: 1, stderr: '' });
    expect(stdout).toBe(readFileSync(new URL('golden/faulty-draft.txt', import.meta.url), 'utf8'));
  });

  test('compiles, formats, explains and writes a first sheet', () => {
    const compiled = quarrel('compile', '../school/surface-pit.quarrel', '--out', join(work, 'out'));
    expect(compiled).toMatchObject({ status: 0, stderr: '' });
    expect(readdirSync(join(work, 'out'))).toEqual(['surface-pit.html']);
    expect(quarrel('format', '.', '--check')).toMatchObject({ stderr: '', stdout: '', status: 0 });
    expect(quarrel('explain', 'cure-after-fill')).toMatchObject({ status: 0, stderr: '' });
    const folder = join(work, `new-${process.hrtime.bigint()}`);
    expect(quarrel('new', folder)).toMatchObject({ status: 0, stderr: '' });
    expect(readdirSync(folder)).toEqual(['equipment.quarrel', 'surface-pit.quarrel']);
  });

  test('serves an editor', async () => {
    const client = new Client({ argv: [node, command, 'serve', '--stdio'] });
    await client.initialize({ folders: [draft] });
    const sheet = pathToFileURL(join(draft, 'faulty-draft.quarrel')).href;
    await client.until(() => client.told(sheet).length > 0, 'findings');
    expect(await client.end()).toBe(0);
    expect(client.errors).toBe('');
  });

  test('ends with 2 on wrong use', () => {
    expect(quarrel('chek')).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringContaining('Did you mean check?'),
    });
  });

  test('ends calmly where nobody reads on', async () => {
    const child = spawn(node, [command, 'check', '.', '--format', 'json'], {
      cwd: draft,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    child.stdout.destroy();
    let stderr = '';
    child.stderr.on('data', (text) => {
      stderr += text;
    });
    const signal = await new Promise((resolve) => child.on('close', (_, how) => resolve(how)));
    expect({ stderr, signal }).toEqual({ stderr: '', signal: null });
  });

  test.each([0, 100, 200, 300, 400, 500])(
    'leaves nothing half written when it is interrupted after %i ms',
    async (delay) => {
      const out = join(work, `interrupted-${delay}-${process.hrtime.bigint()}`);
      const child = spawn(node, [command, 'compile', '../school', '--out', out], { cwd: draft, stdio: 'ignore' });
      const timer = setTimeout(() => child.kill('SIGINT'), delay);
      await new Promise((resolve) => child.on('close', resolve));
      clearTimeout(timer);
      const written = existsSync(out) ? readdirSync(out) : [];
      expect([[], ['stone-chip.html', 'surface-pit.html']]).toContainEqual(written.sort());
      for (const name of written) expect(readFileSync(join(out, name), 'utf8')).toMatch(/<\/html>\s*$/);
    },
  );
});
