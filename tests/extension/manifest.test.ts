import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import manifest from '../../packages/extension/package.json' with { type: 'json' };
import { extension, sourcesIn, textsIn, wordsIn } from './sources.js';

const { contributes } = manifest;
const english = wordsIn('package.nls.json');
const spanish = wordsIn('package.nls.es.json');
const server = fileURLToPath(new URL('../../packages/server/src/features/settings.ts', import.meta.url));

describe('words', () => {
  const used = textsIn(manifest).flatMap(({ text }) => [...text.matchAll(/%([^%]+)%/g)].map((match) => match[1] ?? ''));

  test('every word the manifest asks for is there, and none that it does not ask for', () => {
    expect(Object.keys(english).sort()).toEqual([...new Set(used)].sort());
  });

  test('every word is there in Spanish', () => {
    expect(Object.keys(spanish)).toEqual(Object.keys(english));
  });

  test('links and settings in a text are the same in both languages', () => {
    const marks = (text = ''): readonly string[] => text.match(/\(command:[^)]+\)|`[^`]+`|…$/g) ?? [];
    for (const [key, text] of Object.entries(english)) expect(marks(spanish[key]), key).toEqual(marks(text));
  });

  test('everything the client says can be said in Spanish, and nothing else can', () => {
    const said = [...sourcesIn('src/client').matchAll(/l10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g)].map(
      (match) => match[1] ?? '',
    );
    const translated = wordsIn('l10n/bundle.l10n.es.json');
    expect(Object.keys(translated).sort()).toEqual([...new Set(said)].sort());
    const blanks = (text: string): readonly string[] => (text.match(/\{\d\}/g) ?? []).sort();
    for (const [text, other] of Object.entries(translated)) expect(blanks(other), text).toEqual(blanks(text));
  });

  test('nothing is said in words that cannot be found', () => {
    expect(sourcesIn('src/client').match(/l10n\.t\(\s*[^'\s]/g)).toBeNull();
  });
});

describe('commands', () => {
  const names = contributes.commands.map(({ command }) => command);

  test('every command is registered, and no other', () => {
    const table = /const registered[^{]*\{([\s\S]*?)\n {2}\};/.exec(sourcesIn('src/client'))?.[1] ?? '';
    const registered = [...table.matchAll(/^ {4}(\w+):/gm)].map((match) => `quarrel.${match[1]}`);
    expect(registered.sort()).toEqual([...names].sort());
  });

  test('menus and links lead to commands there are', () => {
    const inMenus = textsIn(contributes.menus).flatMap(({ way, text }) => (way.endsWith('/command') ? [text] : []));
    const inWords = Object.values(english).flatMap((text) =>
      [...text.matchAll(/\(command:([\w.]+)\)/g)].map((match) => match[1]),
    );
    const inSteps = contributes.walkthroughs
      .flatMap(({ steps }) => steps.flatMap(({ completionEvents }) => completionEvents))
      .map((event) => event.replace('onCommand:', ''));
    const own = [...inMenus, ...inWords, ...inSteps].filter((command) => command?.startsWith('quarrel.'));
    expect(own.length).toBeGreaterThan(15);
    expect(own.filter((command) => !names.includes(command ?? ''))).toEqual([]);
  });

  test('every step of the walkthrough is done by something it offers to do', () => {
    const steps = contributes.walkthroughs.flatMap(({ steps }) => steps);
    expect(steps).toHaveLength(5);
    for (const { id, completionEvents } of steps) {
      const offered = english[`walkthrough.${id}.description`] ?? '';
      const done = completionEvents.map((event) => event.replace('onCommand:', ''));
      expect(
        done.some((command) => offered.includes(`(command:${command})`)),
        id,
      ).toBe(true);
    }
  });
});

describe('settings', () => {
  const settings = Object.keys(contributes.configuration.properties);

  test('every setting is read', () => {
    const reading = readFileSync(server, 'utf8');
    const library = readFileSync(
      join(dirname(fileURLToPath(import.meta.resolve('vscode-languageclient'))), 'client.js'),
      'utf8',
    );
    for (const setting of settings) {
      const path = setting.replace('quarrel.', '');
      const isRead = path.split('.').every((part) => reading.includes(`'${part}'`)) || library.includes(`'${path}'`);
      expect(isRead, setting).toBe(true);
    }
  });

  test('every setting that the server reads can be set', () => {
    const fields = [...readFileSync(server, 'utf8').matchAll(/(?:hint|read)\('(\w+)'\)/g)].map(
      (match) => match[1] ?? '',
    );
    expect(fields.length).toBeGreaterThan(3);
    const known = settings.flatMap((setting) => setting.split('.'));
    expect(fields.filter((field) => !known.includes(field))).toEqual([]);
  });
});

describe('files', () => {
  test('every file that the manifest names is there once the extension is built', () => {
    const named = textsIn(manifest).flatMap(({ text }) => (/^(\.\/|media\/|walkthrough\/)/.test(text) ? [text] : []));
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((name) => !existsSync(join(extension, name)))).toEqual([]);
  });

  test('the icon is a picture of 128 by 128', () => {
    const icon = readFileSync(join(extension, manifest.icon));
    expect(icon.subarray(1, 4).toString()).toBe('PNG');
    expect([icon.readUInt32BE(16), icon.readUInt32BE(20)]).toEqual([128, 128]);
  });
});

test('it works in a folder that is not trusted', () => {
  expect(manifest.capabilities.untrustedWorkspaces).toEqual({ supported: true });
});
