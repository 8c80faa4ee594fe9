import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { bundledTexts } from '../../.scripts/text-modules.mjs';
import { type Client, started } from '../server/protocol/client.js';
import { type Edited, firstNumber, type Site } from './editor-sheets.js';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** What yaml-language-server waits after an edit before it looks at it (`validationDelayMs` of its settings). */
export const yamlPause = 200;

/** A folder for the sheets of a measurement. */
export function workFolder(): { readonly path: string; readonly remove: () => void } {
  const path = mkdtempSync(join(tmpdir(), 'quarrel-speed-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

/** Bundles the bare server; gives its command line. */
export async function bareServer(folder: string): Promise<readonly string[]> {
  const outfile = join(folder, 'bare-server.mjs');
  await build({
    absWorkingDir: root,
    entryPoints: ['tests/speed/bare-server.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'warning',
    plugins: [bundledTexts],
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  });
  return [process.execPath, outfile, '--stdio'];
}

/** The language server for YAML, with a schema for the one file it is shown. */
export function yamlServer(folder: string, schema: object): Promise<Client> {
  const file = join(folder, 'schema.json');
  writeFileSync(file, JSON.stringify(schema));
  return started({
    argv: [process.execPath, join(root, 'node_modules/yaml-language-server/bin/yaml-language-server'), '--stdio'],
    folders: [folder],
    capabilities: { workspace: { configuration: true } },
    settings: {
      yaml: { validate: true, schemas: { [pathToFileURL(file).href]: '*.yaml' }, schemaStore: { enable: false } },
    },
  });
}

/** A sheet that is open in a server, and how long findings take after a keystroke in it. */
export interface Desk {
  readonly client: Client;
  /** Writes the next number at a place; milliseconds from sending the edit to hearing of its findings. */
  keystroke(site: Site): Promise<number>;
}

export async function deskOf(client: Client, uri: string, { text, sites }: Edited): Promise<Desk> {
  client.open(uri, text);
  await client.until(() => client.timesTold(uri) > 0, 'first findings');
  const numbers = { comment: firstNumber, label: firstNumber, hold: firstNumber };
  return {
    client,
    keystroke: async (site) => {
      numbers[site] += 1;
      const { line, character } = sites[site];
      const range = { start: { line, character }, end: { line, character: character + String(firstNumber).length } };
      const before = client.timesTold(uri);
      const start = performance.now();
      client.edit(uri, [{ range, text: String(numbers[site]) }], '');
      await client.until(() => client.timesTold(uri) > before, 'findings after a keystroke');
      const taken = performance.now() - start;
      // What a server does behind its answer must not weigh on the next one.
      await new Promise((resolve) => setTimeout(resolve, 30));
      return taken;
    },
  };
}
