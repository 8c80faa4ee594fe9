import { beforeEach, describe, expect, test } from 'vitest';
import type { InlayHint } from 'vscode-languageserver';
import { createWorld, exampleText, type World } from '../harness.js';
import { provider, whole } from './asking.js';

let world: World;

beforeEach(async () => {
  world = await createWorld();
});

const job = `observation break: star, cone, crack
reading temperature: -10 °C to 60 °C
act press
resin thin
resin thick
procedure job {
  covers { break is star, cone; temperature from 41 °F to 35.5 °C }
  choose resin fill { when break is star: thin; otherwise: thick }
  step "Look" { observe break; read temperature; takes 30 s to 1 min } // first
  step "Press"
  {
    do press with fill
    hold at least 1 min
  }
  when break is star { step "A" { with fill; hold 5 s; meanwhile { step "B" } } }
  when break is crack { step "Never" { with fill } }
  step "End"
}
`;

async function hintsOf(name: string, text: string): Promise<readonly InlayHint[]> {
  const document = await world.open(name, text);
  return (await provider(world, 'InlayHintProvider').getInlayHints(document, whole(document))) ?? [];
}

function shown(hints: readonly InlayHint[]): readonly string[] {
  return [...hints]
    .sort((a, b) => a.position.line - b.position.line || a.position.character - b.position.character)
    .map(({ position, label }) => `${position.line + 1}:${position.character} ${label}`);
}

describe('hints', () => {
  test('say when steps start, what choices give, and temperatures on the other scale', async () => {
    expect(shown(await hintsOf('job', job))).toEqual(
      [
        '2:28 = 14 °F',
        '2:37 = 140 °F',
        '7:55 = 5 °C',
        '7:66 = 95.9 °F',
        '9:79 starts at 0 s',
        '10:14 starts at 30 s to 1 min',
        '12:22 thin or thick',
        '15:32 starts at 1 min 30 s or later',
        '15:44 thin',
        '15:77 starts at 1 min 30 s or later',
        '17:12 starts at 1 min 30 s or later',
      ].map((one) => expect.stringMatching(new RegExp(`^${one.replace(/^(\d+):\d+/, '$1:\\d+')}$`))),
    );
  });

  test('stand behind the line of the step; of two on one line each behind its text', async () => {
    const lines = job.split('\n');
    const clock = (await hintsOf('job', job)).filter(({ label }) => String(label).startsWith('starts'));
    const before = clock.map(({ position: { line, character } }) => lines[line]?.slice(0, character));
    expect(before).toEqual([
      '  step "Look" { observe break; read temperature; takes 30 s to 1 min } // first',
      '  step "Press"',
      '  when break is star { step "A"',
      '  when break is star { step "A" { with fill; hold 5 s; meanwhile { step "B"',
      '  step "End"',
    ]);
  });

  test('of a choice say in which situations it gives what', async () => {
    const [first] = (await hintsOf('job', job)).filter(({ label }) => label === 'thin or thick');
    expect(first?.tooltip).toEqual({
      kind: 'markdown',
      value: '- `thin` when `break is star`\n- `thick` when `break is cone`',
    });
  });

  test('only those that are asked about', async () => {
    const document = await world.open('job', job);
    const line = (at: number) => ({ start: { line: at, character: 0 }, end: { line: at, character: 200 } });
    const hints = await provider(world, 'InlayHintProvider').getInlayHints(document, {
      ...whole(document),
      range: line(8),
    });
    expect(shown(hints ?? [])).toEqual(['9:79 starts at 0 s']);
  });

  test.each([
    [{ inlayHints: { clock: false } }, /starts/],
    [{ inlayHints: { choices: false } }, /thin/],
    [{ inlayHints: { units: false } }, /=/],
  ])('are switched off by %j', async (settings, pattern) => {
    const all = shown(await hintsOf('job', job));
    world.configure(settings);
    const fewer = shown(await hintsOf('job', job));
    expect(all.filter((one) => !pattern.test(one))).toEqual(fewer);
    expect(fewer.length).toBeLessThan(all.length);
  });

  test.each([
    ['metric', ['= 5 °C']],
    ['imperial', ['= 14 °F', '= 140 °F', '= 95.9 °F']],
    ['nonsense', ['= 14 °F', '= 140 °F', '= 5 °C', '= 95.9 °F']],
  ])('units: %s', async (units, expected) => {
    world.configure({ units });
    expect(
      (await hintsOf('job', job)).map(({ label }) => label).filter((label) => String(label).includes('=')),
    ).toEqual(expected);
  });

  test('of a sheet that is broken are those of what can be read', async () => {
    const broken = job.replace('step "End"', 'step { do').replace('with fill\n', 'with\n');
    expect(shown(await hintsOf('broken', broken)).some((one) => one.includes('starts at 0 s'))).toBe(true);
  });
});

describe('lenses', () => {
  const titles = async (name: string, text: string) => {
    const document = await world.open(name, text);
    return ((await provider(world, 'CodeLensProvider').provideCodeLens(document, whole(document))) ?? []).map(
      ({ command }) => `${command?.title} → ${command?.command}`,
    );
  };

  test('say what is covered, how long it takes and what is found, and lead to the pictures', async () => {
    expect(
      await titles('job', job.replace('hold at least 1 min', 'hold 1 min').replace(/ {2}when break is crack.*\n/, '')),
    ).toEqual([
      'covers 2 of 3 values of break × 41 °F to 35.5 °C → quarrel.openCoverage',
      '1 min 30 s to 2 min 5 s → quarrel.openTimeline',
      'no findings → quarrel.showFindings',
      'Timeline → quarrel.openTimeline',
      'Coverage → quarrel.openCoverage',
      'Compile… → quarrel.compile',
    ]);
  });

  test('count situations where too much is told apart for a line', async () => {
    // Two values of a, three of b, and two stretches of t: below 12 °C, and from there on.
    const text = `observation a: x, y, z
observation b: u, v, w
observation unasked: one, two
reading t: -10 °C to 60 °C
procedure p {
  covers { a is x, y; t at least 5 °C; t at most 35 °C }
  step "Look" { observe a, b; read t }
  when t below 12 °C { step "Warm" }
}`;
    expect((await titles('kinds', text))[0]).toBe('covers 12 kinds of situation → quarrel.openCoverage');
  });

  test('count findings', async () => {
    expect(
      await titles(
        'bad',
        'observation a: x, y\nprocedure p { when a is x { step "s" { hold 2 min to 1 min; do nobody; takes 5 } } }',
      ),
    ).toContain('4 errors → quarrel.showFindings');
  });

  test('are given the sheet and the procedure', async () => {
    const document = await world.open('job', job);
    const [first] = (await provider(world, 'CodeLensProvider').provideCodeLens(document, whole(document))) ?? [];
    expect(first?.command?.arguments).toEqual(['file:///work/job.quarrel', 'job']);
    expect(first?.range.start).toEqual({ line: 5, character: 10 });
  });

  test('are not on what ships, and can be switched off', async () => {
    const shipped = world.sheet('quarrel:laminated-glass-rules');
    expect(await provider(world, 'CodeLensProvider').provideCodeLens(shipped, whole(shipped))).toEqual([]);
    world.configure({ codeLens: false });
    expect(await titles('job', job)).toEqual([]);
  });
});

describe('colours of names', () => {
  test('tell what a name means, where it is declared, and what ships', async () => {
    const text = `use "quarrel:laminated-glass"
observation o: v
act a { makes pit level raises h }
hazard h caution
rule r { a comes before cure }
lamp l { spot 5 mm }
procedure p { covers { o is v, nobody } choose lamp c { otherwise: l } step s "S" { do a, cure; observe o; with c; waive r because "x" } }
example "e" of p { has step s }`;
    const document = await world.open('coloured', text);
    const tokens = provider(world, 'SemanticTokenProvider');
    const { data } = await tokens.semanticHighlight(document, whole(document));
    const { tokenTypes, tokenModifiers } = tokens.semanticTokensOptions.legend;
    const read: string[] = [];
    let [line, character] = [0, 0];
    for (let at = 0; at < data.length; at += 5) {
      const [down = 0, right = 0, length = 0, type = 0, bits = 0] = data.slice(at, at + 5);
      character = down === 0 ? character + right : right;
      line += down;
      const word = document.textDocument.getText({
        start: { line, character },
        end: { line, character: character + length },
      });
      const marks = tokenModifiers.filter((_, bit) => (bits & (1 << bit)) !== 0);
      read.push([`${word}:${tokenTypes[type]}`, ...marks].join(' '));
    }
    expect(read).toEqual([
      'o:parameter declaration readonly',
      'v:enumMember declaration',
      'a:function declaration',
      'pit:variable defaultLibrary',
      'level:enumMember defaultLibrary',
      'h:event',
      'h:event declaration',
      'r:interface declaration',
      'a:function',
      'cure:function defaultLibrary',
      'l:class declaration',
      'spot:property declaration',
      'p:namespace declaration',
      'o:parameter readonly',
      'v:enumMember',
      'c:typeParameter declaration',
      'l:class',
      's:method declaration',
      'a:function',
      'cure:function defaultLibrary',
      'o:parameter readonly',
      'c:typeParameter',
      'r:interface',
      'p:namespace',
      's:method',
    ]);
  });

  test('of a range are those of the whole that lie in it', async () => {
    const document = await world.open('chip', exampleText('draft/faulty-draft'));
    const tokens = provider(world, 'SemanticTokenProvider');
    const { data } = await tokens.semanticHighlight(document, whole(document));
    const part = await tokens.semanticHighlightRange(document, {
      ...whole(document),
      range: { start: { line: 60, character: 0 }, end: { line: 80, character: 0 } },
    });
    expect(part.data.length).toBeGreaterThan(50);
    expect(part.data.length).toBeLessThan(data.length / 2);
    expect(part.data[0]).toBeGreaterThanOrEqual(60);
    expect(part.data[0]).toBeLessThan(80);
  });
});
