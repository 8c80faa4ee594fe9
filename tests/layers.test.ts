import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';

/**
 * What each package may import beside its own files. The arrows point one way (docs/architecture.md), and what a package must
 * not know is not in its list: nothing below `language` knows Langium, and only the command touches files.
 */
const allowed: Readonly<Record<string, readonly RegExp[]>> = {
  model: [/^@noble\/hashes\//],
  process: [/^@quarrel\/model$/],
  analysis: [/^@quarrel\/model$/],
  checks: [/^@quarrel\/(model|analysis|process)$/],
  checklist: [/^@quarrel\/(model|analysis)$/],
  pictures: [/^@quarrel\/(model|analysis|checks)$/],
  trade: [/^text:packages\/trade\/sheets\//],
  language: [/^@quarrel\/(model|trade)$/, /^langium($|\/)/],
  server: [
    /^@quarrel\/(model|analysis|checks|checklist|pictures|language|trade)$/,
    /^langium($|\/)/,
    /^vscode-languageserver($|\/)/,
    /^node:/,
    /^text:docs\/rules\//,
  ],
  extension: [
    /^@quarrel\/(pictures|server\/protocol)$/,
    /^vscode($|-languageclient($|\/))/,
    /^preact($|\/)/,
    /^text:packages\/cli\/templates\//,
  ],
  cli: [/^@quarrel\//, /^node:/, /^commander$/, /^picocolors$/, /^text:(docs\/rules|packages\/cli\/templates)\//],
};

const root = new URL('..', import.meta.url).pathname;

function sourcesOf(name: string): readonly string[] {
  const folder = join(root, 'packages', name, 'src');
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => join(folder, file));
}

function importsOf(file: string): readonly string[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((match) => match[1] ?? '');
}

describe('arrows between packages point one way', () => {
  test('every package is in the table', () => {
    expect(readdirSync(join(root, 'packages')).sort()).toEqual(Object.keys(allowed).sort());
  });

  test.each(Object.entries(allowed))('%s imports only what it may know', (name, patterns) => {
    const strangers = sourcesOf(name).flatMap((file) =>
      importsOf(file)
        .filter((path) => !path.startsWith('.') && !patterns.some((pattern) => pattern.test(path)))
        .map((path) => `${relative(root, file)}: ${path}`),
    );
    expect(strangers).toEqual([]);
  });

  test.each(Object.entries(allowed))('%s lists in its package.json what it imports', (name) => {
    const { dependencies = {} } = JSON.parse(readFileSync(join(root, 'packages', name, 'package.json'), 'utf8'));
    const used = new Set(
      sourcesOf(name)
        .flatMap(importsOf)
        .filter((path) => !/^(\.|node:|text:)/.test(path) && path !== 'vscode')
        .map((path) => (path.startsWith('@') ? path.split('/').slice(0, 2).join('/') : (path.split('/')[0] ?? path))),
    );
    expect(Object.keys(dependencies).sort()).toEqual([...used].sort());
  });
});
