import { patternInWords, testInWords } from '@quarrel/checks';
import { readSheets, shippedUri } from '@quarrel/language';
import type { Act, Need, Rule, SourceRange } from '@quarrel/model';
import colours from 'picocolors';
import { row } from '../report/rows.js';
import { nameOfSheet } from '../sheets/names.js';
import type { Explanation } from './explanation.js';
import { plainPage } from './markdown.js';
import { pageNamed } from './pages.js';

const trade = 'laminated-glass';
const group = `Of the trade sheet, quarrel:${trade}`;

/** The rules and the named needs of the trade sheet that ships: what the sheet says, then the page where there is one. */
export async function tradeExplanations(): Promise<readonly Explanation[]> {
  const { sheets, others } = await readSheets([shippedUri(trade)], { read: async () => ({ kind: 'missing' }) });
  const all = [...sheets, ...others];
  return [
    ...all.flatMap(({ acts }) => acts.flatMap((act) => act.needs.flatMap((need) => needExplanation(act, need)))),
    ...all.flatMap(({ rules }) => rules.map(ruleExplanation)),
  ];
}

function needExplanation(act: Act, need: Need): readonly Explanation[] {
  const { rule, because, source, range } = need;
  if (rule === undefined) return [];
  const title = `Before ${act.name}: ${testInWords(need.test)}`;
  return [
    { name: rule, title, group, text: textFor({ name: rule, title, severity: 'error', because, source, range }) },
  ];
}

function ruleExplanation({ name, label, severity, pattern, when, because, source, range }: Rule): Explanation {
  const asks = `${patternInWords(pattern)}${when === undefined ? '' : ` when ${testInWords(when)}`}`;
  return { name, title: label, group, text: textFor({ name, title: label, asks, severity, because, source, range }) };
}

interface Told {
  readonly name: string;
  readonly title: string;
  readonly asks?: string;
  readonly severity: string;
  readonly because: string | undefined;
  readonly source: string | undefined;
  readonly range: SourceRange;
}

function textFor({ name, title, asks, severity, because, source, range }: Told): Explanation['text'] {
  return (isColoured) => {
    const { bold, dim } = colours.createColors(isColoured);
    const rows = [
      row('asks', [asks ?? title], dim),
      row('severity', [severity], dim),
      row('why', [because ?? ''], dim),
      row('source', [source ?? ''], dim),
      row('declared in', [nameOfSheet(range.uri, '/')], dim),
    ];
    return `${bold(name)}\n\n${asks === undefined ? '' : `${title}.\n\n`}${rows.join('')}${pageBehind(name, isColoured)}`;
  };
}

/** A rule's page, without the heading that is there already. */
function pageBehind(name: string, isColoured: boolean): string {
  const page = pageNamed(name);
  return page === undefined ? '' : `\n${plainPage(page.replace(/^#[^\n]*\n+/, ''), isColoured)}`;
}
