import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import type { CompletionList } from 'vscode-languageserver-protocol/node';
import { Client, started } from '../server/protocol/client.js';
import { allSites, asYaml, type Edited, type Place, type Site, shopSheet, singleProcedure } from './editor-sheets.js';
import { middle, ms, ratio, table } from './measure.js';
import { bareServer, type Desk, deskOf, workFolder, yamlPause, yamlServer } from './servers.js';

const folder = workFolder();
const clients: Client[] = [];
afterAll(async () => {
  for (const client of clients) await client.end();
  folder.remove();
});

const what: Readonly<Record<Site, string>> = { comment: 'a comment', label: 'words of a step', hold: 'a hold' };

async function desksFor(sheet: Edited): Promise<Readonly<Record<'bare' | 'ours' | 'yaml', Desk>>> {
  const { path } = folder;
  const uri = (ending: string): string => pathToFileURL(join(path, `sheet-${clients.length}.${ending}`)).href;
  const { yaml, schema } = await asYaml(sheet);
  const ours = await started({ folders: [path] });
  const bare = await started({ folders: [path], argv: await bareServer(path) });
  const other = await yamlServer(path, schema);
  clients.push(ours, bare, other);
  return {
    ours: await deskOf(ours, uri('quarrel'), sheet),
    bare: await deskOf(bare, uri('quarrel'), sheet),
    yaml: await deskOf(other, uri('yaml'), yaml),
  };
}

test('from a keystroke to findings', async () => {
  const rows: string[][] = [];
  const sheets: readonly (readonly [string, Edited])[] = [
    ['several procedures', shopSheet(300)],
    ['several procedures', shopSheet(3_000)],
    ['several procedures', shopSheet(10_000)],
    ['one procedure', singleProcedure(3_000)],
    ['one procedure', singleProcedure(10_000)],
  ];
  for (const [shape, sheet] of sheets) {
    const desks = await desksFor(sheet);
    const runs = sheet.lines > 5_000 ? 9 : 15;
    const servers = ['bare', 'ours', 'yaml'] as const;
    for (const site of allSites) {
      const times = { bare: [] as number[], ours: [] as number[], yaml: [] as number[] };
      // The first keystrokes find everything cold; they do not count.
      for (let run = -3; run < runs; run++) {
        for (const server of servers) {
          const time = await desks[server].keystroke(site);
          if (run >= 0) times[server].push(time);
        }
      }
      const [bare, ours, yaml] = servers.map((server) => middle(times[server]));
      rows.push([
        shape,
        String(sheet.lines),
        what[site],
        ms(bare),
        ms(ours),
        ratio(ours, bare ?? Number.NaN),
        ms(yaml),
        ratio(ours, yaml ?? Number.NaN),
        ratio(ours, (yaml ?? Number.NaN) - yamlPause),
      ]);
    }
    for (const { client } of Object.values(desks)) {
      clients.splice(clients.indexOf(client), 1);
      await client.end();
    }
  }
  console.log(
    `\nFrom a keystroke to findings over stdio (medians, one run)\n\n${table(
      [
        'sheet',
        'lines',
        'edit in',
        'bare Langium, parse and link',
        'ours',
        'to bare',
        'yaml-language-server, schema',
        'ours to it',
        `without its pause of ${yamlPause} ms`,
      ],
      rows,
    )}\n`,
  );
});

test('completion in a sheet of 3,000 lines', async () => {
  const sheet = shopSheet(3_000);
  const { path } = folder;
  const uri = pathToFileURL(join(path, 'completion.quarrel')).href;
  const client = await started({ folders: [path] });
  clients.push(client);
  const desk = await deskOf(client, uri, sheet);
  await client.settled();
  const lines = sheet.text.split('\n');
  const around = sheet.sites.hold.line;
  /** Behind some words, in the first line from the middle of the sheet on that has them. */
  const behind = (words: string): Place => {
    const line = lines.findIndex((text, at) => at >= around && text.includes(words));
    return { line, character: (lines[line]?.indexOf(words) ?? 0) + words.length };
  };
  const places: readonly (readonly [string, Place])[] = [
    ['an act', behind('do ')],
    ['a clause of a step', { line: around, character: 6 }],
    ['a part of a stage', { line: around + 1, character: 0 }],
  ];
  const ask = async (position: Place): Promise<number> => {
    const start = performance.now();
    const { items } = await client.request<CompletionList>('textDocument/completion', {
      textDocument: { uri },
      position,
    });
    const taken = performance.now() - start;
    expect(items.length).toBeGreaterThan(0);
    return taken;
  };
  const rows: string[][] = [];
  for (const [name, position] of places) {
    const first = await ask(position);
    const calm: number[] = [];
    const typing: number[] = [];
    for (let run = 0; run < 15; run++) {
      calm.push(await ask(position));
      const told = desk.keystroke('hold');
      typing.push(await ask(position));
      await told;
    }
    rows.push([name, ms(first), ms(middle(calm)), ms(middle(typing))]);
  }
  console.log(
    `\nCompletion in a sheet of ${sheet.lines} lines (medians, one run)\n\n${table(
      ['asked for', 'the first time', 'in a text that is checked', 'right behind a keystroke in a hold'],
      rows,
    )}\n`,
  );
});

test('from starting the server to findings', async () => {
  const examples = fileURLToPath(new URL('../../examples', import.meta.url));
  const bare = await bareServer(folder.path);
  const times = { node: [] as number[], bare: [] as number[], hello: [] as number[], findings: [] as number[] };
  for (let run = -1; run < 9; run++) {
    const node = await timed(() => once(spawn(process.execPath, ['-e', '0']), 'exit'));
    const other = new Client({ argv: bare });
    const bareHello = await timed(() => other.initialize({ folders: [examples] }));
    await other.end();
    const start = performance.now();
    const ours = new Client();
    await ours.initialize({ folders: [examples] });
    const hello = performance.now() - start;
    await ours.settled();
    const findings = performance.now() - start;
    expect(ours.summary?.errors).toBeGreaterThan(0);
    await ours.end();
    if (run < 0) continue;
    times.node.push(node);
    times.bare.push(bareHello);
    times.hello.push(hello);
    times.findings.push(findings);
  }
  const rows: readonly (readonly [string, readonly number[]])[] = [
    ['Node has started and ended', times.node],
    ['the bare server says what it can do', times.bare],
    ['ours says what it can do', times.hello],
    ['ours has told what it finds in all examples', times.findings],
  ];
  console.log(
    `\nFrom starting the server (medians, one run)\n\n${table(
      ['until', 'time', 'to Node'],
      rows.map(([until, list]) => [until, ms(middle(list)), ratio(middle(list), middle(times.node))]),
    )}\n`,
  );
});

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
