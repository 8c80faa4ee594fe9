import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { pack } from '../../.scripts/package.mjs';
import { extension } from './sources.js';

/** What ships, and nothing else. */
const shipped = `
extension/CHANGELOG.md
extension/LICENSE.txt
extension/LICENSES-OF-PARTS.txt
extension/README.md
extension/dist/client.cjs
extension/dist/client.web.js
extension/dist/panel.css
extension/dist/panel.js
extension/dist/quarrel.markdown.tmLanguage.json
extension/dist/quarrel.mjs
extension/dist/quarrel.tmLanguage.json
extension/dist/server.cjs
extension/dist/server.web.js
extension/l10n/bundle.l10n.es.json
extension/language-configuration.json
extension/media/icon.png
extension/media/icon.svg
extension/media/sheet-dark.svg
extension/media/sheet-light.svg
extension/package.json
extension/package.nls.es.json
extension/package.nls.json
extension/snippets/quarrel.json
extension/walkthrough/compile.svg
extension/walkthrough/mend.svg
extension/walkthrough/read.svg
extension/walkthrough/see.svg
extension/walkthrough/write.svg`
  .trim()
  .split('\n');

/** The names in a zip archive, from its central directory (APPNOTE 4.3.12, from memory). */
function namesIn(zip: Buffer): readonly string[] {
  const names: string[] = [];
  const signature = Buffer.from('PK\x01\x02', 'latin1');
  for (let at = zip.indexOf(signature); at >= 0; at = zip.indexOf(signature, at + 46)) {
    names.push(zip.toString('utf8', at + 46, at + 46 + zip.readUInt16LE(at + 28)));
  }
  return names;
}

describe('the archive', () => {
  let archive = '';

  beforeAll(() => {
    archive = pack();
  });

  test('holds what ships, and nothing else', () => {
    const inside = namesIn(readFileSync(archive)).filter((name) => name.startsWith('extension/'));
    expect(inside.map((name) => name.toLowerCase()).sort()).toEqual(shipped.map((name) => name.toLowerCase()).sort());
  });

  test('is below 2 MB', () => {
    expect(statSync(archive).size).toBeLessThan(2_000_000);
  });
});

describe('the bundles', () => {
  const bundles = [
    'client.cjs',
    'client.web.js',
    'server.cjs',
    'server.web.js',
    'quarrel.mjs',
    'panel.js',
    'panel.css',
  ];

  test.each(bundles)('%s knows no address on the network but pages for people', (name) => {
    const text = readFileSync(join(extension, 'dist', name), 'utf8');
    const hosts = [...text.matchAll(/\b(?:https?|wss?):\/\/([a-z0-9.-]+\.[a-z]+)/gi)].map((match) => match[1]);
    expect([...new Set(hosts)].filter((host) => !pagesForPeople.has(host ?? ''))).toEqual([]);
  });

  test.each(['client.web.js', 'server.web.js', 'panel.js'])('%s asks for no module of Node', (name) => {
    const text = readFileSync(join(extension, 'dist', name), 'utf8');
    const asked = [...text.matchAll(/(?<!\.)\brequire\("([^"]+)"\)/g)].map((match) => match[1]);
    expect(asked.filter((module) => module !== 'vscode')).toEqual([]);
  });
});

/** Where messages of libraries point people to, and the name of SVG's elements; nothing is fetched from there. */
const pagesForPeople = new Set(['chevrotain.io', 'en.wikipedia.org', 'github.com', 'langium.org', 'www.w3.org']);
