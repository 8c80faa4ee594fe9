import { readFileSync } from 'node:fs';
import { checkSheets } from '@quarrel/checks';
import { describe, expect, test } from 'vitest';
import { readShop, said } from './reading.js';

const page = readFileSync(new URL('../../docs/language.md', import.meta.url), 'utf8');

/** What the blocks that are no whole sheet speak of. A sheet of its own: nobody minds what is unused in a sheet that is used. */
const frame = `
observation break: bullseye, half-moon, star
observation zone: driver-view, edge, elsewhere
reading glass-temperature: -20 °C to 60 °C
state cavity: empty, filled, cured
hazard uv "UV light" warning { wear "glasses that block UV" }
act draw-vacuum
act press-resin makes cavity filled
act flex
act clear-pit
act cure raises uv
tool probe
resin thin
injector small
`;

/** Where a block belongs; `in-step` and `in-procedure` are said in its first line, behind `quarrel`. */
const places = {
  sheet: (text: string) => text,
  'in-procedure': (text: string) => `use "frame"
procedure framed {
  step "Look round" { observe break, zone; read glass-temperature }
${text}}
`,
  'in-step': (text: string) => places['in-procedure'](`step "Framed" {\n${text}}\n`),
};

interface Block {
  /** Its line on the page, and how it begins. */
  readonly name: string;
  readonly text: string;
  /** The rule that it breaks on purpose: \`\`\`quarrel wrong RULE. */
  readonly breaks: string | undefined;
}

/** Every block of the page in the language; one whose first line is not understood is an error of the page. */
function blocksOf(markdown: string): readonly Block[] {
  return [...markdown.matchAll(/^```quarrel([^\n]*)\n([\s\S]*?)^```$/gm)].map(
    ({ index, 1: info = '', 2: text = '' }) => {
      const line = markdown.slice(0, index).split('\n').length;
      const marks = /^(?: wrong ([a-z-]+))?(?: (in-procedure|in-step))?$/.exec(info);
      if (marks === null) throw new Error(`line ${line} of the page: "quarrel${info}" is not understood`);
      const place = marks[2] === 'in-procedure' || marks[2] === 'in-step' ? marks[2] : 'sheet';
      return { name: `line ${line}: ${text.split('\n')[0] ?? ''}`, text: places[place](text), breaks: marks[1] };
    },
  );
}

/** All that is said of a block, and of the frame: problems of the texts, findings of the check. */
async function judge(
  text: string,
): Promise<{ readonly problems: readonly string[]; readonly rules: readonly string[] }> {
  const { sheets, others } = await readShop({ 'main.quarrel': text, 'frame.quarrel': frame }, {});
  const problems = [...sheets, ...others].flatMap((sheet) => sheet.problems);
  const findings = checkSheets(sheets).findings;
  return {
    problems: problems.map(said),
    rules: [...problems, ...findings].map(({ rule }) => rule),
  };
}

const blocks = blocksOf(page);
const right = blocks.filter(({ breaks }) => breaks === undefined);
const wrong = blocks.flatMap(({ breaks, ...block }) => (breaks === undefined ? [] : [{ ...block, breaks }]));

test('every block of the page that is marked as ours is found', () => {
  expect(blocks.length).toBe(page.split('\n').filter((line) => line.startsWith('```quarrel')).length);
  expect(right.length).toBeGreaterThan(25);
  expect(wrong.length).toBeGreaterThan(5);
});

describe('what the page shows as right', () => {
  test.each(right)('$name reads without a problem and is not found fault with', async ({ text }) => {
    expect(await judge(text)).toEqual({ problems: [], rules: [] });
  });
});

describe('what the page shows as wrong', () => {
  test.each(wrong)('$name breaks $breaks', async ({ text, breaks }) => {
    expect((await judge(text)).rules).toContain(breaks);
  });
});

describe('the words of the language', () => {
  const generated = readFileSync(new URL('../../packages/language/src/generated/ast.ts', import.meta.url), 'utf8');
  const listed = /export type QuarrelKeywordNames =([\s\S]*?);\n/.exec(generated)?.[1] ?? '';
  const words = [...listed.matchAll(/"([a-z-]+)"/g)].map(([, word = '']) => word);

  test('are read from the grammar', () => {
    expect(words).toEqual(expect.arrayContaining(['observation', 'meanwhile', 'variation']));
  });

  test('stand on the page in backticks or in a block, not as a text or a comment', () => {
    const shown = [
      ...[...page.matchAll(/^```quarrel[^\n]*\n([\s\S]*?)^```$/gm)].map(({ 1: text = '' }) => text),
      ...[...page.replace(/^```[\s\S]*?^```$/gm, '').matchAll(/`([^`\n]+)`/g)].map(({ 1: text = '' }) => text),
    ].join('\n');
    const code = shown.replace(/"[^"\n]*"|\/\/[^\n]*|\/\*[\s\S]*?\*\//g, ' ');
    const met = new Set(code.match(/[a-z]+(?:-[a-z]+)*/g));
    expect(words.filter((word) => !met.has(word))).toEqual([]);
  });
});
