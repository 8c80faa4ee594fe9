import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import language from '../../packages/extension/language-configuration.json' with { type: 'json' };
import manifest from '../../packages/extension/package.json' with { type: 'json' };
import snippets from '../../packages/extension/snippets/quarrel.json' with { type: 'json' };
import { world } from '../cli/world.js';

const draft = readFileSync(new URL('../../examples/draft/faulty-draft.quarrel', import.meta.url), 'utf8');

describe('findings in the terminal', () => {
  const patterns = manifest.contributes.problemMatchers.flatMap(({ pattern }) => pattern);

  /** What the editor makes of lines: each pattern has to match the line behind the one before it. */
  function matched(lines: readonly string[]): readonly Readonly<Record<string, string | undefined>>[] {
    return lines.flatMap((_, at) => {
      const matches = patterns.map(({ regexp }, offset) => new RegExp(regexp).exec(lines[at + offset] ?? ''));
      if (matches.includes(null)) return [];
      const parts = patterns.flatMap((pattern, offset) =>
        Object.entries(pattern).flatMap(([part, group]) =>
          typeof group === 'number' ? [[part, matches[offset]?.[group]] as const] : [],
        ),
      );
      return [Object.fromEntries(parts)];
    });
  }

  test('all of them are read off the output of the command, at their places', async () => {
    const { quarrel } = world({ 'draft.quarrel': draft });
    const { out } = await quarrel('check', 'draft.quarrel');
    const { findings } = JSON.parse((await quarrel('check', 'draft.quarrel', '--format', 'json')).out);
    expect(findings.length).toBeGreaterThan(20);
    const key = (one: Readonly<Record<string, unknown>>): string => Object.values(one).join(' ');
    const wanted = findings.map((one: (typeof findings)[number]) =>
      key({ code: one.rule, severity: one.severity, file: one.file, ...one.range.start }),
    );
    const read = matched(out.split('\n'));
    expect(read.map(({ message: _, ...place }) => key(place)).sort()).toEqual(wanted.sort());
    for (const { message } of read) expect(message).toMatch(/^\S.{8,}/);
  });
});

describe('snippets', () => {
  /** The text of a snippet as it stands before anyone fills it in. */
  function written(body: readonly string[]): string {
    return body
      .join('\n')
      .replace(/\$\{\d+\|([^,|]+)[^}]*\}/g, '$1')
      .replace(/\$\{\d+:([^}]*)\}/g, '$1')
      .replace(/\$\d/g, '');
  }

  test.each(Object.entries(snippets))('%s is written as the language wants it', async (_, { body, prefix }) => {
    const text = written(body);
    const isWhole = /^(procedure|example)/.test(prefix);
    const sheet = isWhole ? text : `procedure around {\n${text}\n}\n`;
    const { quarrel } = world({ 'sheet.quarrel': sheet });
    const { findings } = JSON.parse((await quarrel('check', 'sheet.quarrel', '--format', 'json')).out);
    expect(findings.filter(({ rule }: { rule: string }) => /syntax|unit|dimension/.test(rule))).toEqual([]);
    const { code, err } = await quarrel('format', 'sheet.quarrel');
    expect(err).toBe('');
    expect(code).toBe(0);
  });
});

describe('how lines are written', () => {
  const { increaseIndentPattern, decreaseIndentPattern } = language.indentationRules;
  const opens = new RegExp(increaseIndentPattern);
  const closes = new RegExp(decreaseIndentPattern);

  test.each([
    ['  step look "Look {here}" {', true, false],
    ['  } otherwise {', true, true],
    ['  step look "Look" { takes 10 s }', false, false],
    ['  // when break is star {', false, false],
    ['  note "an open {"', false, false],
    ['  }', false, true],
  ])('%s', (line, isOpening, isClosing) => {
    expect([opens.test(line), closes.test(line)]).toEqual([isOpening, isClosing]);
  });

  test('a name with hyphens is one word, and a quantity is two', () => {
    const { pattern, flags } = language.wordPattern;
    const words = 'when glass-temperature at least -10 °C: half-moon'.match(new RegExp(pattern, `${flags}g`));
    expect(words).toEqual(['when', 'glass-temperature', 'at', 'least', '-', '10', '°', 'C', 'half-moon']);
  });
});
