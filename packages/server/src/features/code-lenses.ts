import { testInWords } from '@quarrel/checks';
import { isSheetDocument, shippedName } from '@quarrel/language';
import type { Test, Vocabulary } from '@quarrel/model';
import type { LangiumDocument } from 'langium';
import type { CodeLens } from 'vscode-languageserver';
import { rangeOf } from '../check/places.js';
import { commands } from '../protocol.js';
import type { LanguageServices } from '../services.js';
import { countWords } from './hover/procedure.js';
import { timeWords } from './hover/words-of-runs.js';
import { countInWords, kindsCovered } from './kinds-covered.js';
import { type Known, knownIn } from './runs.js';
import { settingsOf } from './settings.js';

/** The line above a procedure: what it covers, how long it takes, what is found, and the ways to its pictures. */
export async function codeLenses(document: LangiumDocument, services: LanguageServices): Promise<CodeLens[]> {
  if (!isSheetDocument(document) || shippedName(document.uri.toString()) !== undefined) return [];
  const { codeLens } = await settingsOf(services.shared);
  return codeLens ? knownIn(document, services).flatMap(lensesOf) : [];
}

function lensesOf(known: Known): CodeLens[] {
  const { procedure, findings } = known;
  const range = rangeOf(procedure.range);
  const lens = (title: string, command: string): CodeLens => ({
    range,
    command: { title, command, arguments: [procedure.uri, procedure.name] },
  });
  const covers = coversTitle(known);
  const time = timeTitle(known);
  return [
    ...(covers === undefined ? [] : [lens(covers, commands.openCoverage)]),
    ...(time === undefined ? [] : [lens(time, commands.openTimeline)]),
    lens(countWords(findings), commands.showFindings),
    lens('Timeline', commands.openTimeline),
    lens('Coverage', commands.openCoverage),
    lens('Compile…', commands.compile),
  ];
}

function timeTitle({ run }: Known): string | undefined {
  const total = run?.end.moment.clock.over(run.end.moment.reached);
  return total === undefined ? undefined : timeWords(total);
}

/** How many lines of `covers` are told one by one. */
const mostTold = 2;

function coversTitle({ procedure, run }: Known): string | undefined {
  if (run === undefined) return undefined;
  if (run.covered === run.situations.store.nowhere) return 'covers nothing';
  const { covers, vocabulary } = procedure;
  if (covers.length > 0 && covers.length <= mostTold) {
    return `covers ${covers.map((test) => shortTest(test, vocabulary)).join(' × ')}`;
  }
  return `covers ${countInWords(kindsCovered(procedure, run))} of situation`;
}

/** `4 of 7 break`, `5 °C to 35 °C`; any other test in full. */
function shortTest(test: Test, { observations }: Vocabulary): string {
  if (test.kind === 'between') return `${test.low.text} to ${test.high.text}`;
  if (test.kind !== 'is') return testInWords(test);
  const all = observations.find(({ name }) => name === test.subject)?.values.length ?? 0;
  const count = test.negated ? all - test.values.length : test.values.length;
  return count === 1 ? testInWords(test) : `${count} of ${all} values of ${test.subject}`;
}
