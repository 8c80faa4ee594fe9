import { readFileSync } from 'node:fs';
import { formatText } from '@quarrel/language';
import { expect, test } from 'vitest';
import type { TextDocumentContentChangeEvent, TextEdit } from 'vscode-languageserver-protocol/node';
import { seed as seedOf } from '../../analysis/judge/seed.js';
import { type Client, serve } from './client.js';
import { applied, placeIn } from './edits.js';
import { foundAfresh, heard } from './expected.js';
import { workshop } from './folders.js';
import { Inspector } from './inspector.js';

const edits = 10_000;
/** When the memory is weighed for the first time. */
const early = 1_000;
const betweenCheckpoints = 400;

const { folderWith, start } = workshop();
const names = ['surface-pit.quarrel', 'equipment.quarrel', 'house-rules.quarrel'] as const;
const originals = Object.fromEntries(
  names.map((name) => [name, readFileSync(new URL(`../../../examples/school/${name}`, import.meta.url), 'utf8')]),
);

/** Numbers from 0 to below 1 that look random and come again with their seed (mulberry32, from memory). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const inserts = [
  ...[
    '{',
    '}',
    '"',
    '(',
    ')',
    ';',
    ',',
    '\n',
    '\r\n',
    '\r',
    ' ',
    '//',
    '/*',
    '*/',
    '/** x */',
    '\u{1fa9f}',
    'e\u0301',
    '\t',
  ],
  ...[
    '10 s',
    '1 min to 2 min',
    'hold 3 s',
    ' step "New" { takes 2 s }\n',
    ' when pit-size below 3 mm { }\n',
    'thin',
    'use "equipment"\n',
  ],
  ...[
    'procedure p { }\n',
    'rule r { no polish after polish }\n',
    'act polish',
    'x',
    '1',
    ' and ',
    ' or ',
    'not ',
    'otherwise ',
  ],
];

interface Edit {
  readonly changes: readonly TextDocumentContentChangeEvent[];
  readonly text: string;
}

const whole = (text: string): Edit => ({ changes: [{ text }], text });

/** Something that somebody may do to a text, wherever it is; up to four changes, one after another. */
function wildEdit(text: string, original: string, random: () => number): Edit {
  const kind = random();
  if (kind < 0.04 || text.length > original.length * 2) return whole(original);
  if (kind < 0.06) return whole('');
  const changes: TextDocumentContentChangeEvent[] = [];
  let now = text;
  const count = kind < 0.8 ? 1 : 1 + Math.floor(random() * 4);
  for (let change = 0; change < count; change++) {
    const from = boundary(now, Math.floor(random() * (now.length + 1)));
    const length = random() < 0.4 ? 0 : Math.floor(random() ** 4 * Math.min(300, now.length - from + 1));
    const to = boundary(now, from + length);
    const copied = boundary(now, Math.floor(random() * (now.length + 1)));
    const words = inserts[Math.floor(random() * inserts.length)] ?? '';
    const copy = now.slice(copied, boundary(now, copied + 40));
    const put = length > 0 && random() < 0.4 ? '' : random() < 0.2 ? copy : words;
    changes.push({ range: { start: placeIn(now, from), end: placeIn(now, to) }, text: put });
    now = now.slice(0, from) + put + now.slice(to);
  }
  return { changes, text: now };
}

/** Something that leaves a text readable: other space between words, or another digit. */
function mildEdit(text: string, random: () => number): Edit {
  const spots = [...text.matchAll(/(?<=[{};] *)\n *|(?<=\d)\d/g)];
  const spot = spots[Math.floor(random() * spots.length)];
  if (spot === undefined) return whole(text);
  const [found] = spot;
  const put = /\d/.test(found)
    ? String(Math.floor(random() * 10))
    : ['\n', '\r\n', '\n\n\n', ' \n\t '][Math.floor(random() * 4)];
  const [from, to] = [spot.index, spot.index + found.length];
  return {
    changes: [{ range: { start: placeIn(text, from), end: placeIn(text, to) }, text: put ?? '' }],
    text: `${text.slice(0, from)}${put}${text.slice(to)}`,
  };
}

/** The nearest place at or before an offset that does not part a character or the two of a line's end. */
function boundary(text: string, offset: number): number {
  const pair = text.slice(Math.max(0, offset - 1), offset + 1);
  return pair === '\r\n' || /^[\ud800-\udbff][\udc00-\udfff]$/.test(pair) ? offset - 1 : Math.min(offset, text.length);
}

/** Ten seconds on a machine that has nothing else to do. */
const patience = 400_000;

test(`after ${edits} random edits the server knows what the client knows, and is no larger`, {
  timeout: patience,
}, async () => {
  const seed = seedOf().seed ?? Math.floor(Math.random() * 2 ** 31);
  const random = numbers(seed);
  const { path, uri } = folderWith(originals);
  const inspector = new Inspector();
  const client = await start({ folders: [path], argv: inspector.inspected(serve) });
  await inspector.attach(client);
  for (const name of names) client.open(uri(name), originals[name] ?? '');
  await client.settled();
  const weights: number[] = [];
  /** The sheets that may have become unreadable. */
  const wild = new Set<string>();
  let formatted = 0;
  try {
    for (let done = 0, next = betweenCheckpoints; done < edits; ) {
      const burst = Math.min(random() < 0.3 ? 1 : 1 + Math.floor(random() * 40), edits - done, next - done);
      const isMild = random() < 0.4;
      for (let edit = 0; edit < burst; edit++) {
        const name = names[Math.floor(random() ** 1.5 * names.length)] ?? names[0];
        const [text, original] = [client.textOf(uri(name)), originals[name] ?? ''];
        const made = !isMild
          ? wildEdit(text, original, random)
          : wild.has(name)
            ? whole(original)
            : mildEdit(text, random);
        if (isMild) wild.delete(name);
        else wild.add(name);
        client.edit(uri(name), made.changes, made.text);
      }
      done += burst;
      await client.settled();
      if (done === next) {
        formatted += await expectSame(client, names.map(uri), path);
        next = Math.min(next + betweenCheckpoints, edits);
      }
      if (weights.length === 0 && done >= early) weights.push(await weigh(client));
    }
    weights.push(await weigh(client));
    expectInOrder(client);
  } catch (error) {
    throw new Error(`QUARREL_SEED=${seed} repeats this.`, { cause: error });
  } finally {
    inspector.close();
  }
  expect(formatted).toBeGreaterThan(0);
  console.log(
    `random edits: QUARREL_SEED=${seed}; heap in use ${weights.map((bytes) => `${(bytes / 2 ** 20).toFixed(1)} MiB`).join(' → ')}`,
  );
  const [before = 0, after = Number.NaN] = weights;
  expect(after / before).toBeLessThan(1.2);

  /** The memory in use once everything is as it was in the beginning and what is not needed is gone. */
  async function weigh(client: Client): Promise<number> {
    for (const name of names) client.write(uri(name), originals[name] ?? '');
    await client.settled();
    return inspector.heapInUse();
  }
});

/**
 * The findings are those of the client's texts, and so is what formatting would make of them: the texts are the same. Gives how
 * many of them it would change.
 */
async function expectSame(client: Client, uris: readonly string[], workspace: string): Promise<number> {
  let changed = 0;
  const texts = Object.fromEntries(uris.map((uri) => [uri, client.textOf(uri)]));
  const found = await foundAfresh(texts, workspace);
  for (const [uri, text] of Object.entries(texts)) {
    expect(heard(client.told(uri))).toEqual(found[uri]);
    const options = { tabSize: 2, insertSpaces: true };
    const formatting = await client.request<TextEdit[] | null>('textDocument/formatting', {
      textDocument: { uri },
      options,
    });
    const tidy = applied(text, formatting);
    expect(withOneLineEnd(tidy)).toBe(withOneLineEnd(formatText(text, uri).text));
    if (tidy !== text) changed += 1;
  }
  return changed;
}

/** How lines end is the editor's affair, and an edit cannot part the two characters of one end. */
function withOneLineEnd(text: string): string {
  return text.replace(/\r\n?/g, '\n');
}

/** No sheet was told of with a version older than one told before. */
function expectInOrder(client: Client): void {
  const newest = new Map<string, number>();
  for (const { uri, version = 0 } of client.published) {
    expect(version).toBeGreaterThanOrEqual(newest.get(uri) ?? 0);
    newest.set(uri, version);
  }
}
