import { interpret } from '@quarrel/analysis';
import { checkSheets } from '@quarrel/checks';
import { createQuarrelServices, formatText } from '@quarrel/language';
import { URI } from 'langium';
import { expect, test } from 'vitest';
import { median, ms, ratio, table } from './measure.js';
import { madeSheet, procedureOf, sheetOf } from './sheets.js';

const { shared } = createQuarrelServices();

/** What bare Langium takes to parse and link a sheet: the baseline that checking is held against. */
async function parseAndLink(text: string): Promise<void> {
  const uri = URI.parse('file:///made/made.quarrel');
  const document = shared.workspace.LangiumDocumentFactory.fromString(text, uri);
  shared.workspace.LangiumDocuments.addDocument(document);
  await shared.workspace.DocumentBuilder.build([document], { validation: false });
  expect(document.parseResult.parserErrors).toHaveLength(0);
  shared.workspace.LangiumDocuments.deleteDocument(uri);
}

test('more and more steps', async () => {
  const rows: string[][] = [];
  for (const count of [10, 100, 1_000, 10_000]) {
    const text = madeSheet(count, 8, 'independent');
    const procedure = await procedureOf(text);
    const sheet = await sheetOf(text);
    const runs = count >= 10_000 ? 3 : 7;
    const langium = await median(runs, () => parseAndLink(text));
    const reading = await median(runs, () => sheetOf(text));
    const formatting = await median(runs, () => formatText(text));
    const engine = await median(runs, () => expect(interpret(procedure).kind).toBe('run'));
    const checking = await median(runs, () => checkSheets([sheet]));
    rows.push([
      String(count),
      ms(langium),
      ms(reading),
      ratio(reading, langium),
      ratio(formatting, langium),
      ms(engine),
      `${((engine / count) * 1000).toFixed(0)} µs`,
      ms(checking),
      ratio(checking, langium),
    ]);
  }
  console.log(
    `\nSteps over 8 conditions (medians, one run)\n\n${table(
      [
        'steps',
        'Langium, parse and link',
        'reading (parse, link, lower)',
        'to Langium',
        'formatting to Langium',
        'engine',
        'engine, a step',
        'checking (engine, rules, words)',
        'to Langium',
      ],
      rows,
    )}\n`,
  );
});
