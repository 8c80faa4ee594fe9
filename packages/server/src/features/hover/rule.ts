import { patternInWords, ruleCatalogue, testInWords, type WaivedFinding } from '@quarrel/checks';
import type { Act, Need, Rule } from '@quarrel/model';
import { pageUri } from '../../rule-pages.js';
import { heading, sourceWords } from './declarations.js';
import { code, link, list, page, paragraphs, plain } from './markdown.js';

export function ruleHover(rule: Rule): string {
  const { name, label, severity, pattern, when, because, source, documentation } = rule;
  const asks = `${patternInWords(pattern)}${when === undefined ? '' : ` when ${testInWords(when)}`}`;
  return page([
    heading(label, `rule (${severity})`, name),
    `Asks: ${code(asks)}`,
    reasonWords(because),
    ...paragraphs(documentation),
    sourceWords(source),
    pageWords(name),
  ]);
}

/** A need with a name of its own, the rule that a finding carries. */
export function needHover(need: Need & { readonly rule: string }, act: Act): string {
  return page([
    heading(`Before ${act.label.charAt(0).toLowerCase()}${act.label.slice(1)}`, 'rule (error)', need.rule),
    `${code(act.name)} needs ${code(testInWords(need.test))}`,
    reasonWords(need.because),
    sourceWords(need.source),
    pageWords(need.rule),
  ]);
}

/** A rule of Quarrel's own; nothing for any other name. */
export function catalogueHover(name: string): string | undefined {
  const card = ruleCatalogue.find((one) => one.name === name);
  if (card === undefined) return undefined;
  return page([heading(card.title, `rule of Quarrel (${card.severity})`, name), pageWords(name)]);
}

/** What a waiver takes away; nothing where it takes away nothing, which is a finding of its own. */
export function waivedWords(waived: readonly WaivedFinding[]): string | undefined {
  return list(
    'Waived here',
    waived.map(({ finding: { message, situation } }) =>
      situation === undefined || situation.region === 'always'
        ? plain(message)
        : `${plain(message)} When ${code(situation.region)}`,
    ),
  );
}

function reasonWords(because: string | undefined): string | undefined {
  return because === undefined ? undefined : `Because: ${plain(because)}`;
}

function pageWords(name: string): string | undefined {
  const uri = pageUri(name);
  return uri === undefined ? undefined : link('Why, and how to mend it', uri);
}
