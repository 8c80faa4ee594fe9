import { conversionsOf } from '@quarrel/checks';
import { flowIn, type Span } from '@quarrel/model';
import { describe, expect, test } from 'vitest';
import { applied } from './applied.js';
import { read } from './reading.js';

/** What is accepted of a reading of that kind, or a hold. */
async function spanOf(clause: string): Promise<{ readonly text: string; readonly span: Span | undefined }> {
  const text = `reading t: 0 K to 900 K
reading l: 0 m to 9 m
procedure p { step "x" { ${clause} } }`;
  const [sheet] = await read({ sheet: text });
  const [step] = [...flowIn(sheet?.procedures[0]?.body ?? [])].filter((part) => part.kind === 'step');
  const [effect] = step?.effects ?? [];
  return { text, span: effect?.kind === 'read' ? effect.accept?.span : step?.hold };
}

describe('the same in another unit', () => {
  test.each([
    ['read t accept at least 10 °C', ['Write 50 °F', 'Write 283.15 K']],
    ['read t accept 10 °C to 35 °C', ['Write 50 °F to 95 °F', 'Write 283.15 K to 308.15 K']],
    ['read l accept at most 30 mm', ['Write 3 cm', 'Write 0.03 m']],
    ['read l accept at most 1 inch', ['Write 25.4 mm', 'Write 2.54 cm', 'Write 0.0254 m']],
    ['hold 1 min 30 s', ['Write 90 s', 'Write 1.5 min', 'Write 0.025 h']],
    ['hold 4 to 6 min', ['Write 240 s to 360 s']],
  ])('%s', async (clause, titles) => {
    const { text, span } = await spanOf(clause);
    const ends = [span?.least, span?.most].flatMap((end) => end ?? []);
    const mends = conversionsOf(ends);
    expect(mends.map(({ title }) => title)).toEqual(expect.arrayContaining(titles));
    for (const mend of mends) {
      const { sheet = '' } = applied({ sheet: text }, mend.edits);
      const after = await spanOf(/step "x" \{ (.*) \} \}$/.exec(sheet)?.[1] ?? '');
      expect([after.span?.least?.si, after.span?.most?.si], sheet).toEqual([span?.least?.si, span?.most?.si]);
    }
  });

  test('is not offered where it would have to be rounded, nor for what has one unit', async () => {
    const { span } = await spanOf('read l accept at most 30 mm');
    const most = span?.most;
    expect(most === undefined ? [] : conversionsOf([most]).map(({ title }) => title)).not.toContainEqual(
      expect.stringContaining('inch'),
    );
    expect(conversionsOf([])).toEqual([]);
  });
});
