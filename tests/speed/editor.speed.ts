import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, test } from 'vitest';
import { type Client, started } from '../server/protocol/client.js';
import { allSites, asYaml, type Edited, type Site, shopSheet, singleProcedure } from './editor-sheets.js';
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
