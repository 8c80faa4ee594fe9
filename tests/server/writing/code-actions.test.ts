import { TextDocument } from 'langium';
import { describe, expect, test } from 'vitest';
import { type CodeAction, type Position, SnippetTextEdit, type WorkspaceEdit } from 'vscode-languageserver';
import { codeActions } from '../../../packages/server/src/features/code-actions/code-actions.js';
import { addressOf, createWorld, exampleText, marked, type World } from '../harness.js';

interface Asking {
  readonly only?: string[];
  readonly snippets?: boolean;
}

function actionsAt(
  world: World,
  name: string,
  position: Position,
  { only, snippets = false }: Asking = {},
): readonly CodeAction[] {
  const document = world.sheet(name);
  return codeActions(
    document,
    {
      textDocument: { uri: document.uri.toString() },
      range: { start: position, end: position },
      context: { diagnostics: [], ...(only === undefined ? {} : { only }) },
    },
    world.services.quarrel,
    { snippets },
  );
}

async function actions(
  source: string,
  asking?: Asking,
): Promise<{ readonly text: string; readonly all: readonly CodeAction[] }> {
  const world = await createWorld();
  const { text, cursor } = marked(source);
  await world.open('asked', text);
  return { text, all: actionsAt(world, 'asked', cursor, asking) };
}

function applied(text: string, edit: WorkspaceEdit | undefined, name = 'asked'): string {
  const uri = addressOf(name);
  return TextDocument.applyEdits(TextDocument.create(uri, 'quarrel', 0, text), edit?.changes?.[uri] ?? []);
}

const cure = `hazard uv "UV light" warning
act cure raises uv
procedure p {
  step "Cure" {
    do cu<|>re
    takes 5 s
  }
}
`;

describe('mends and waivers', () => {
  test('the mends first, then the ways to take it on purpose', async () => {
    const { text, all } = await actions(cure);
    expect(all.map(({ title }) => title)).toEqual([
      expect.stringContaining('caution uv'),
      ...all.slice(1, -2).map(({ title }) => title),
      'Waive hazard-unannounced in this step',
      'Waive hazard-unannounced in the whole procedure',
    ]);
    expect(all[0]?.isPreferred).toBe(true);
    expect(applied(text, all[0]?.edit)).toContain('caution uv');
  });

  test('a waiver, to be given its reason', async () => {
    const { text, all } = await actions(cure);
    const [waiver] = all.filter(({ title }) => title.endsWith('in this step'));
    expect(applied(text, waiver?.edit)).toContain('    takes 5 s\n    waive hazard-unannounced because ""\n  }');
  });

  test('a waiver as a snippet, where the editor takes one: the cursor between the quotation marks', async () => {
    const { all } = await actions(cure, { snippets: true });
    const [waiver] = all.filter(({ title }) => title.endsWith('in this step'));
    const [change] = waiver?.edit?.documentChanges ?? [];
    const edits = change !== undefined && 'edits' in change ? change.edits : [];
    const values = edits.flatMap((edit) => (SnippetTextEdit.is(edit) ? [edit.snippet.value] : []));
    // The line it is put into is indented already, and the editor sets every further line in as far.
    expect(values).toEqual(['\nwaive hazard-unannounced because "$0"']);
  });

  test('every mend of the draft can be applied, and leaves no words of it behind that are not its own', async () => {
    const world = await createWorld();
    const text = exampleText('draft/faulty-draft');
    await world.open('draft', text);
    const { findings } = world.services.quarrel.check.Checks.of(world.sheet('draft'));
    let tried = 0;
    for (const { range } of findings) {
      for (const { edit, title } of actionsAt(world, 'draft', {
        line: range.start.line,
        character: range.start.column,
      })) {
        const changed = applied(text, edit, 'draft');
        expect(changed, title).not.toBe(text);
        const { parserErrors, lexerErrors } = (await world.open('mended', changed)).parseResult;
        expect([...parserErrors, ...lexerErrors], title).toEqual([]);
        tried += 1;
      }
    }
    expect(tried).toBeGreaterThan(20);
  }, 60_000);
});

describe('other units', () => {
  const rewritten = async (source: string): Promise<readonly string[]> => {
    const { text, all } = await actions(source, { only: ['refactor'] });
    return all.map(({ edit }) => applied(text, edit));
  };
  const hold = (span: string): string => `procedure p { step "A" { hold ${span} } }`;

  test('in each that says it exactly', async () => {
    expect(await rewritten(hold('12<|>0 s'))).toEqual([hold('2 min')]);
  });
  test('both ends of a span, also where one lends the other its unit', async () => {
    expect(await rewritten(hold('<|>1 to 2 min'))).toEqual([hold('60 s to 120 s')]);
  });
  test('temperatures', async () => {
    const texts = await rewritten('reading t: 0 °C to 100 °C\nprocedure p { when t below 1<|>0 °C { stop "x" } }');
    expect(texts.some((text) => text.includes('t below 50 °F'))).toBe(true);
  });
  test('not of a difference of temperatures', async () => {
    expect(await rewritten('use "quarrel:laminated-glass"\nassume warming { change 1<|>5 K }')).toEqual([]);
  });
  test('not where none is written', async () => {
    expect(await rewritten('procedure p { step "<|>A" { hold 120 s } }')).toEqual([]);
  });
});

describe('plain slips', () => {
  const slips =
    'procedure p {\n  step “One” {\n    hold 30 se<|>c\n    takes 2 minutes\n  }\n  step „Two“ { note "He said “go”" }\n}\n';

  test('all at once, when asked for', async () => {
    const { text, all } = await actions(slips, { only: ['source.fixAll'] });
    expect(all.map(({ kind }) => kind)).toEqual(['source.fixAll.quarrel']);
    expect(applied(text, all[0]?.edit)).toBe(
      'procedure p {\n  step "One" {\n    hold 30 s\n    takes 2 min\n  }\n  step "Two" { note "He said “go”" }\n}\n',
    );
  });
  test('none where there are none, and none where nobody asks', async () => {
    expect((await actions('procedure p<|> { step "A" }', { only: ['source.fixAll'] })).all).toEqual([]);
    expect((await actions(slips)).all.map(({ kind }) => kind)).not.toContain('source.fixAll.quarrel');
  });
  test('curly quotation marks where they stand', async () => {
    const { text, all } = await actions('procedure p {\n  step “O<|>ne”\n}\n');
    expect(all.map(({ title }) => title)).toContain('Write straight quotation marks');
    expect(applied(text, all.find(({ title }) => title === 'Write straight quotation marks')?.edit)).toContain(
      'step "One"',
    );
  });
  test('a unit that may be one of several is left to the author', async () => {
    const { all } = await actions('procedure p { step "A" { hold 3<|> x } }', { only: ['source.fixAll'] });
    expect(all).toEqual([]);
  });
});
