import pages from 'text:docs/rules/*.md';

const scheme = 'quarrel:';

/** The address of a rule's page; nothing for a rule that has none, such as a shop's own. */
export function pageUri(rule: string): string | undefined {
  return pages[pathOf(rule)] === undefined ? undefined : `${scheme}/rules/${rule}.md`;
}

/** The text of a page at its address: a rule's, or the list of all (`README`). Nothing for any other address. */
export function pageAt(uri: string): string | undefined {
  const rule = /^quarrel:\/rules\/([A-Za-z0-9-]+)\.md$/.exec(uri)?.[1];
  return rule === undefined ? undefined : pages[pathOf(rule)];
}

function pathOf(rule: string): string {
  return `docs/rules/${rule}.md`;
}
