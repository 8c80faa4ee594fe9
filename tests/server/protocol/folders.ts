import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, expect } from 'vitest';
import { type Client, type StartOptions, started } from './client.js';

/** A folder of this machine with sheets in it. */
export interface Folder {
  readonly path: string;
  /** The address of a file in it. */
  uri(name: string): string;
  /** Writes a file. */
  write(name: string, content: string | Uint8Array): void;
}

/** Makes folders, and servers that end well, for the tests of one file. */
export function workshop(): {
  readonly folderWith: (files: Readonly<Record<string, string | Uint8Array>>) => Folder;
  readonly start: (options?: StartOptions) => Promise<Client>;
} {
  const root = mkdtempSync(join(tmpdir(), 'quarrel-protocol-'));
  const clients: Client[] = [];
  afterEach(async () => {
    for (const client of clients.splice(0)) {
      expect(await client.end()).toBe(0);
      // A server with an inspector says where that is.
      expect(client.errors.replace(/^(Debugger|For help).*\n/gm, '')).toBe('');
    }
  });
  afterAll(() => rmSync(root, { recursive: true, force: true }));
  return {
    folderWith: (files) => {
      const path = mkdtempSync(join(root, 'folder-'));
      const write = (name: string, content: string | Uint8Array): void => writeFileSync(join(path, name), content);
      for (const [name, content] of Object.entries(files)) write(name, content);
      return { path, write, uri: (name) => pathToFileURL(join(path, name)).href };
    },
    start: async (options) => {
      const client = await started(options);
      clients.push(client);
      return client;
    },
  };
}
