import { beforeAll, describe, expect, test } from 'vitest';
import type { DocumentSymbol, SelectionRange } from 'vscode-languageserver';
import { selectionRanges } from '../../../packages/server/src/features/selection-ranges.js';
import { createWorld, exampleText, marked, type World } from '../harness.js';
import { placed, provider, whole } from './asking.js';

let world: World;

beforeAll(async () => {
  world = await createWorld();
});

async function symbolsOf(text: string): Promise<readonly DocumentSymbol[]> {
  const document = await world.open('outlined', text);
  return provider(world, 'DocumentSymbolProvider').getSymbols(document, whole(document));
}

function outline(symbols: readonly DocumentSymbol[], depth = 0): string {
  return symbols
    .map(({ name, detail, children = [] }) => {
      const more = detail === undefined ? '' : ` (${detail})`;
      return `${'  '.repeat(depth)}${name}${more}\n${outline(children, depth + 1)}`;
    })
    .join('');
}

describe('the outline', () => {
  test('goes from procedures down to steps', async () => {
    const text = `
observation break "Break type": star "Star", cone
act press "Press" { needs break is star as star-only; makes s b }
procedure p "Job" {
  choose resin fill { otherwise: thin }
  stage "Fill" {
    step a "Press" { hold 1 min; meanwhile { step "Flex" } }
    when break is star { step "One" } otherwise when break   is cone { step "Two" } otherwise { stop "x" }
    repeat at most 3 times until "Full" { step "Again" }
  }
}
example "Cold" of p { suppose break is star }
variation v of p { after step a { step "More" } }
`;
    expect(outline(await symbolsOf(text))).toBe(`break (Break type)
  star (Star)
  cone
press (Press)
  star-only
p (Job)
  fill
  Fill
    Press (a)
      Flex
    when break is star
      One
    otherwise when break is cone
      Two
    otherwise
    repeat at most 3 times (Full)
      Again
Cold
v
  More
`);
  });

  test('keeps what can be read of a broken sheet, also behind a brace too many', async () => {
    const broken = outline(
      await symbolsOf('act\nprocedure p {\n step "One" { do }\n}\n}\n stage "Lost" { step "Two" }'),
    );
    for (const name of ['p', 'One', 'Lost', 'Two']) expect(broken).toContain(`${name}\n`);
  });

  test('selects a name inside the part that it names', async () => {
    const inside = (symbols: readonly DocumentSymbol[]): void => {
      for (const { range, selectionRange, children = [] } of symbols) {
        expect(atLeast(selectionRange.start, range.start) && atLeast(range.end, selectionRange.end)).toBe(true);
        inside(children);
      }
    };
    const symbols = await symbolsOf(exampleText('school/stone-chip'));
    expect(symbols.length).toBeGreaterThan(0);
    inside(symbols);
  });
});

function atLeast(a: { line: number; character: number }, b: { line: number; character: number }): boolean {
  return a.line > b.line || (a.line === b.line && a.character >= b.character);
}

describe('folding', () => {
  const folds = async (text: string) => {
    const document = await world.open('folded', text);
    return (await provider(world, 'FoldingRangeProvider').getFoldingRanges(document, whole(document))).map(
      ({ startLine, endLine, kind }) => `${startLine}-${endLine}${kind === undefined ? '' : ` ${kind}`}`,
    );
  };

  test('leaves the closing brace in sight, and folds comments and uses', async () => {
    const text = [
      'use "a"',
      'use "b"',
      '/* one',
      '   two */',
      '// three',
      '// four',
      'procedure p {',
      '  stage "x" {',
      '    step "y" { takes 5 s }',
      '    when a is b {',
      '      step "z"',
      '    } otherwise {',
      '      step "u"',
      '    }',
      '  }',
      '}',
    ].join('\n');
    expect((await folds(text)).sort()).toEqual(
      ['0-1 imports', '2-3 comment', '4-5 comment', '6-14', '7-13', '9-10', '11-12'].sort(),
    );
  });

  test('nothing of one line, and braces without a partner', async () => {
    expect(await folds('act a { makes s b }\n}\n// one\n')).toEqual([]);
  });
});

describe('growing selections', () => {
  const grown = async (source: string) => {
    const { text, cursor } = marked(source);
    const document = await world.open('selected', text);
    const [first] = selectionRanges(document, { ...whole(document), positions: [cursor] });
    const texts: string[] = [];
    for (let at: SelectionRange | undefined = first; at !== undefined; at = at.parent) {
      texts.push(document.textDocument.getText(at.range));
    }
    return texts;
  };

  test('from a word over clause, step and stage to the sheet', async () => {
    const step = 'step "b" { do press }';
    expect(await grown('procedure p { stage "a" { step "b" { do pre<|>ss } } }\n')).toEqual([
      'press',
      'do press',
      step,
      `{ ${step} }`,
      `stage "a" { ${step} }`,
      `procedure p { stage "a" { ${step} } }`,
      `procedure p { stage "a" { ${step} } }\n`,
    ]);
  });

  test('from the words of a text to the text', async () => {
    expect((await grown('act a "Press <|>it"\n')).slice(0, 3)).toEqual(['Press it', '"Press it"', 'act a "Press it"']);
  });

  test('in a comment and in nothing: the sheet', async () => {
    expect(await grown('// no<|>te\nact a\n')).toEqual(['// note\nact a\n']);
    expect(await grown('<|>')).toEqual(['']);
  });

  test('every range is larger than the one inside it', async () => {
    const document = await world.open('chip', exampleText('school/stone-chip'));
    const { textDocument } = document;
    const length = textDocument.getText().length;
    for (let offset = 0; offset <= length; offset += 7) {
      const { position } = placed(document, textDocument.positionAt(offset));
      const [first] = selectionRanges(document, { ...whole(document), positions: [position] });
      for (let at = first; at?.parent !== undefined; at = at.parent) {
        const [inner, outer] = [at.range, at.parent.range];
        expect(atLeast(inner.start, outer.start) && atLeast(outer.end, inner.end)).toBe(true);
        expect(textDocument.getText(outer).length).toBeGreaterThan(textDocument.getText(inner).length);
      }
    }
  });
});
