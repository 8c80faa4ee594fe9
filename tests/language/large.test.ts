import { type ast, createQuarrelServices } from '@quarrel/language';
import { DocumentState, URI } from 'langium';
import { expect, test } from 'vitest';
import { allSteps, readOne } from './reading.js';

function sheetOf(steps: number): string {
  const body = Array.from({ length: steps }, (_, at) =>
    at % 5 === 4
      ? `  when break is star and t below 10 °C { step s${at} "Step ${at}" { do fill; hold 15 s to 30 s } }`
      : '  step "Do the thing" { do fill; with thin amount 4 to 6 drops; takes 10 s; hold 1 min 30 s }',
  );
  return `observation break: bullseye, star
reading t: -20 °C to 60 °C
state cavity: empty, filled
act fill makes cavity filled
resin thin
procedure p {
  step look "Look" { observe break; read t }
${body.join('\n')}
}
`;
}

test('a procedure of 10,000 steps is read whole, in not much more than parsing and linking take', async () => {
  const text = sheetOf(10_000);
  await readOne(sheetOf(500));
  const began = performance.now();
  const { shared, quarrel } = createQuarrelServices();
  const document = shared.workspace.LangiumDocumentFactory.fromString<ast.Sheet>(
    text,
    URI.parse('file:///bare.quarrel'),
  );
  document.state = DocumentState.ComputedScopes;
  await quarrel.references.Linker.link(document);
  const bare = performance.now() - began;
  const middle = performance.now();
  const sheet = await readOne(text);
  const whole = performance.now() - middle;
  expect(sheet.problems).toEqual([]);
  expect(allSteps(sheet)).toHaveLength(10_001);
  expect(new Set(allSteps(sheet).map(({ id }) => id)).size).toBe(10_001);
  // About a quarter more when the machine is quiet; others may be at work on it.
  expect(whole).toBeLessThan(bare * 3);
});
