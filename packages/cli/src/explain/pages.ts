import pages from 'text:docs/rules/*.md';
import { ruleCatalogue } from '@quarrel/checks';
import type { Explanation } from './explanation.js';
import { plainPage } from './markdown.js';

const groups = {
  text: 'Of the text of a sheet',
  flow: 'Of the flow of a procedure',
  sheets: 'Of acts and rules that sheets declare',
  process: 'Of the process (estimates)',
} as const;

/** Quarrel's own rules, from their pages in `docs/rules`. */
export function pageExplanations(): readonly Explanation[] {
  const inOrder = Object.keys(groups);
  return [...ruleCatalogue]
    .sort((a, b) => inOrder.indexOf(a.family) - inOrder.indexOf(b.family))
    .map(({ name, title, family }) => ({
      name,
      title,
      group: groups[family],
      text: (isColoured) => plainPage(pageNamed(name) ?? `# ${name}\n\n${title}.\n`, isColoured),
    }));
}

/** The page of a rule, as Markdown. */
export function pageNamed(name: string): string | undefined {
  return pages[`docs/rules/${name}.md`];
}
