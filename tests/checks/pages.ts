import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Finding } from '@quarrel/checks';

const folder = fileURLToPath(new URL('../../docs/rules/', import.meta.url));

/** A rule's page, taken apart. */
export interface Page {
  readonly name: string;
  readonly headings: readonly string[];
  readonly fails: string;
  readonly says: string;
  readonly mended: string;
}

/** The names of all pages about rules. */
export function pageNames(): readonly string[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.md'))
    .map((file) => file.replace(/\.md$/, ''))
    .sort();
}

export function pageOf(name: string): Page {
  const text = readFileSync(`${folder}${name}.md`, 'utf8');
  const blocks = [...text.matchAll(/```(quarrel|text)\n([\s\S]*?)```/g)].map(([, kind, content]) => ({
    kind,
    content,
  }));
  const sheets = blocks.filter(({ kind }) => kind === 'quarrel').map(({ content }) => content ?? '');
  return {
    name,
    headings: [...text.matchAll(/^#+ .*$/gm)].map(([heading]) => heading),
    fails: sheets[0] ?? '',
    says: blocks.find(({ kind }) => kind === 'text')?.content ?? '',
    mended: sheets[1] ?? '',
  };
}

/** Writes what Quarrel says into the page. */
export function record(name: string, says: string): void {
  const path = `${folder}${name}.md`;
  const text = readFileSync(path, 'utf8');
  writeFileSync(
    path,
    text.replace(/```text\n[\s\S]*?```/, () => `\`\`\`text\n${says}\`\`\``),
  );
}

/** Findings in plain text, as a page shows them. */
export function said(findings: readonly Finding[]): string {
  return findings.map(saidOne).join('\n');
}

function saidOne({ rule, severity, range, message, situation, because, source, advice }: Finding): string {
  const path = situation?.path.map(({ text }) => `"${text}"`).join(' → ') ?? '';
  return [
    `${severity}[${rule}] ${range.start.line + 1}:${range.start.column + 1} ${message}`,
    ...(situation === undefined ? [] : [`  where ${situation.region}`]),
    ...(path === '' ? [] : [`  after ${path}`]),
    ...(because === undefined ? [] : [`  because ${because}${source === undefined ? '' : ` (${source})`}`]),
    ...(advice === undefined ? [] : [`  mend: ${advice}`]),
    '',
  ].join('\n');
}
