import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver-protocol/node';
import { type Client, command } from './client.js';
import { workshop } from './folders.js';

const examples = fileURLToPath(new URL('../../../examples', import.meta.url));
const severities = ['', 'error', 'warning', 'info', 'hint'];

const { folderWith, start } = workshop();
const startedIn = (...folders: readonly string[]): Promise<Client> => start({ folders });

/** Rule, severity and place, as the command counts. */
function placed({ code, severity, range: { start, end }, message }: Diagnostic): string {
  const at = `${start.line + 1}:${start.character + 1}-${end.line + 1}:${end.character + 1}`;
  return `${code} ${severities[severity ?? 0]} ${at} ${String(message).split('\n')[0]}`;
}

interface Told {
  readonly rule: string;
  readonly severity: string;
  readonly file: string;
  readonly message: string;
  readonly waivedBecause?: string;
  readonly range: Record<'start' | 'end', { readonly line: number; readonly column: number }>;
  readonly path: readonly { readonly file: string; readonly line: number; readonly text: string }[];
}

function byCommand(folder: string): { readonly findings: readonly Told[]; readonly waived: readonly Told[] } {
  const { stdout } = spawnSync(process.execPath, [command, 'check', '.', '--format', 'json'], {
    cwd: folder,
    encoding: 'utf8',
  });
  return JSON.parse(stdout);
}

function placedByCommand({ rule, severity, range: { start, end }, message }: Told): string {
  return `${rule} ${severity} ${start.line}:${start.column}-${end.line}:${end.column} ${message}`;
}

describe('findings are those of the command', () => {
  const sheets = readdirSync(examples, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.quarrel'),
  );
  const { findings, waived } = byCommand(examples);

  test('there is something to compare', () => {
    expect(sheets.length).toBeGreaterThan(5);
    expect(findings.length).toBeGreaterThan(10);
  });

  test('for every example sheet, closed and open', async () => {
    const client = await startedIn(examples);
    await client.settled();
    const tell = () =>
      Object.fromEntries(
        sheets.map((name) => {
          const told = client.told(pathToFileURL(join(examples, name)).href);
          return [name, told.filter(({ severity }) => severity !== 4).map(placed)];
        }),
      );
    const expected = Object.fromEntries(
      sheets.map((name) => [name, findings.filter(({ file }) => file === name).map(placedByCommand)]),
    );
    expect(tell()).toEqual(expected);
    for (const name of sheets) {
      client.open(pathToFileURL(join(examples, name)).href, readFileSync(join(examples, name), 'utf8'));
    }
    await client.settled();
    expect(tell()).toEqual(expected);
    expect(client.summary).toMatchObject({
      sheets: sheets.length,
      errors: findings.filter(({ severity }) => severity === 'error').length,
      warnings: findings.filter(({ severity }) => severity === 'warning').length,
    });
  });

  test('the way there can be followed, and what was waived is a hint with its reason', async () => {
    const client = await startedIn(examples);
    await client.settled();
    for (const finding of findings.filter(({ path }) => path.length > 0)) {
      const told = client
        .told(pathToFileURL(join(examples, finding.file)).href)
        .find((one) => placed(one) === placedByCommand(finding));
      const steps = (told?.relatedInformation ?? []).slice(-finding.path.length);
      expect(steps.map(({ location }) => [location.uri, location.range.start.line + 1])).toEqual(
        finding.path.map(({ file, line }) => [pathToFileURL(join(examples, file)).href, line]),
      );
      for (const [at, { message }] of steps.entries()) expect(message).toContain(finding.path[at]?.text);
    }
    for (const one of waived) {
      const hints = client
        .told(pathToFileURL(join(examples, one.file)).href)
        .filter(({ code, severity }) => severity === 4 && code === one.rule);
      expect(hints.map(({ message }) => message).join('\n')).toContain(one.waivedBecause);
    }
  });
});

const equipment = 'resin thin "Thin resin"\n';
const procedure = `use "equipment"

act inject "Inject the resin"

procedure chip "Chip" {
  stage "Fill" {
    step "Inject" { do inject; with thin }
  }
}
`;

describe('a sheet that uses a changed one is told of anew', () => {
  const codes = (client: Client, uri: string) => client.told(uri).map(({ code }) => code);

  test('when that is changed in the editor, and closed unsaved', async () => {
    const { path, uri } = folderWith({ 'equipment.quarrel': equipment, 'chip.quarrel': procedure });
    const client = await startedIn(path);
    client.open(uri('chip.quarrel'), procedure);
    client.open(uri('equipment.quarrel'), equipment);
    await client.settled();
    expect(codes(client, uri('chip.quarrel'))).toEqual([]);
    client.write(uri('equipment.quarrel'), equipment.replace('thin', 'thick'));
    await client.settled();
    expect(codes(client, uri('chip.quarrel'))).toEqual(['unknown-name']);
    await client.checkedAfter(() => client.close(uri('equipment.quarrel')));
    expect(codes(client, uri('chip.quarrel'))).toEqual([]);
    expect(codes(client, uri('equipment.quarrel'))).toEqual([]);
  });

  test('when that is changed, deleted, created and renamed on disk', async () => {
    const { path, uri } = folderWith({ 'equipment.quarrel': equipment, 'chip.quarrel': procedure });
    const client = await startedIn(path);
    client.open(uri('chip.quarrel'), procedure);
    await client.settled();
    const file = join(path, 'equipment.quarrel');

    writeFileSync(file, equipment.replace('thin', 'thick'));
    await client.checkedAfter(() => client.watched({ uri: uri('equipment.quarrel'), type: 2 }));
    expect(codes(client, uri('chip.quarrel'))).toEqual(['unknown-name']);

    rmSync(file);
    await client.checkedAfter(() => client.watched({ uri: uri('equipment.quarrel'), type: 3 }));
    expect(codes(client, uri('chip.quarrel'))).toEqual(['unknown-sheet']);
    expect(codes(client, uri('equipment.quarrel'))).toEqual([]);

    writeFileSync(file, equipment);
    await client.checkedAfter(() => client.watched({ uri: uri('equipment.quarrel'), type: 1 }));
    expect(codes(client, uri('chip.quarrel'))).toEqual([]);

    renameSync(file, join(path, 'kit.quarrel'));
    await client.checkedAfter(() =>
      client.watched({ uri: uri('equipment.quarrel'), type: 3 }, { uri: uri('kit.quarrel'), type: 1 }),
    );
    expect(codes(client, uri('chip.quarrel'))).toEqual(['unknown-sheet']);
    client.write(uri('chip.quarrel'), procedure.replace('equipment', 'kit'));
    await client.settled();
    expect(codes(client, uri('chip.quarrel'))).toEqual([]);
  });

  test('when a whole folder comes and goes', async () => {
    const { path, uri } = folderWith({ 'chip.quarrel': procedure.replace('"equipment"', '"kit/equipment"') });
    const client = await startedIn(path);
    client.open(uri('chip.quarrel'), procedure.replace('"equipment"', '"kit/equipment"'));
    await client.settled();
    expect(codes(client, uri('chip.quarrel'))).toEqual(['unknown-sheet']);
    mkdirSync(join(path, 'kit'));
    writeFileSync(join(path, 'kit/equipment.quarrel'), equipment);
    await client.checkedAfter(() => client.watched({ uri: uri('kit'), type: 1 }));
    expect(codes(client, uri('chip.quarrel'))).toEqual([]);
    rmSync(join(path, 'kit'), { recursive: true });
    await client.checkedAfter(() => client.watched({ uri: uri('kit'), type: 3 }));
    expect(codes(client, uri('chip.quarrel'))).toEqual(['unknown-sheet']);
  });

  test('and so is a used one, where a declaration of it comes into use or out of it', async () => {
    const kit = `${equipment}${procedure
      .replace(/use .*|; with thin/g, '')
      .replace('chip', 'pit')
      .replace('inject', 'press')}`;
    const { path, uri } = folderWith({ 'equipment.quarrel': kit, 'chip.quarrel': procedure });
    const client = await startedIn(path);
    client.open(uri('chip.quarrel'), procedure);
    await client.settled();
    const before = codes(client, uri('equipment.quarrel'));
    client.write(uri('chip.quarrel'), procedure.replace('; with thin', ''));
    await client.settled();
    expect(codes(client, uri('equipment.quarrel'))).toEqual(['unused-declaration', ...before]);
    client.write(uri('chip.quarrel'), procedure);
    await client.settled();
    expect(codes(client, uri('equipment.quarrel'))).toEqual(before);
  });

  test('saved or not, the editor counts while a sheet is open', async () => {
    const { path, uri } = folderWith({ 'equipment.quarrel': equipment, 'chip.quarrel': procedure });
    const client = await startedIn(path);
    client.open(uri('chip.quarrel'), procedure);
    client.open(uri('equipment.quarrel'), equipment);
    await client.settled();
    writeFileSync(join(path, 'equipment.quarrel'), '');
    client.watched({ uri: uri('equipment.quarrel'), type: 2 });
    client.write(uri('chip.quarrel'), `${procedure}\n`);
    await client.settled();
    expect(codes(client, uri('chip.quarrel'))).toEqual([]);
  });
});

test('a broken line does not blank the rest', async () => {
  const uri = pathToFileURL(join(examples, 'draft/faulty-draft.quarrel')).href;
  const text = readFileSync(join(examples, 'draft/faulty-draft.quarrel'), 'utf8');
  const client = await startedIn(examples);
  client.open(uri, text);
  await client.settled();
  const before = client.told(uri).map(({ code }) => code);
  const lines = text.split('\n');
  const at = lines.findIndex((line) => line.includes('step ')) + 1;
  client.write(uri, [...lines.slice(0, at), '    hold hold 3 to {', ...lines.slice(at)].join('\n'));
  await client.settled();
  const after = client.told(uri).map(({ code }) => code);
  expect(after).toContain('syntax');
  expect(after.filter((code) => code !== 'syntax').length).toBeGreaterThan(before.length / 2);
});
