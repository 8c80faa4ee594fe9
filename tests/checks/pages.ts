import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type CheckReport, ruleCatalogue } from '@quarrel/checks';
import { type Surroundings, textOf } from '@quarrel/cli';
import { readSheets, shippedUri } from '@quarrel/language';
import type { Severity } from '@quarrel/model';
import { shippedSheets } from '@quarrel/trade';

const folder = fileURLToPath(new URL('../../docs/rules/', import.meta.url));

const index = `${folder}README.md`;

/** What the index says of a rule beside what its page says. */
export interface Ruled {
  readonly name: string;
  readonly severity: Severity;
}

/** The rules that Quarrel itself has a name for. */
export const ownRules: readonly Ruled[] = ruleCatalogue;

/** The named needs and the rules of the sheets that ship, in the order of the sheets; a need that is not met is an error. */
export async function shippedRules(): Promise<readonly Ruled[]> {
  const addresses = Object.keys(shippedSheets).map(shippedUri);
  const { sheets } = await readSheets(addresses, { read: async () => ({ kind: 'missing' }) });
  const needs = sheets
    .flatMap(({ acts }) => acts.flatMap((act) => act.needs))
    .flatMap(({ rule }) => (rule === undefined ? [] : [{ name: rule, severity: 'error' as const }]));
  return [...needs, ...sheets.flatMap(({ rules }) => rules.map(({ name, severity }) => ({ name, severity })))];
}

/** A rule's page, taken apart. */
export interface Page {
  readonly name: string;
  /** What the rule finds, in one sentence. */
  readonly finds: string;
  readonly headings: readonly string[];
  readonly fails: string;
  readonly says: string;
  readonly mended: string;
}

/** The names of all pages about rules. */
export function pageNames(): readonly string[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.md') && file !== 'README.md')
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
    finds: (/^# .*\n\n([\s\S]*?)\n\n/.exec(text)?.[1] ?? '').replace(/\n/g, ' '),
    headings: [...text.matchAll(/^#+ .*$/gm)].map(([heading]) => heading),
    fails: sheets[0] ?? '',
    says: blocks.find(({ kind }) => kind === 'text')?.content ?? '',
    mended: sheets[1] ?? '',
  };
}

/** The tables of the index as they stand in it, one after the other. */
export function indexTables(): readonly string[] {
  return [...readFileSync(index, 'utf8').matchAll(tables)].map(([table]) => table);
}

const tables = /(?:^\|.*\n)+/gm;

/** Writes the tables of the index in place of those that stand in it. */
export function recordIndex(wanted: readonly string[]): void {
  const left = [...wanted];
  writeFileSync(
    index,
    readFileSync(index, 'utf8').replace(tables, (table) => left.shift() ?? table),
  );
}

/** A table of the index: the name, what the rule finds, and how much it weighs. */
export function tableOf(rules: readonly Ruled[]): string {
  const rows = rules.map(({ name, severity }) => `| [${name}](${name}.md) | ${pageOf(name).finds} | ${severity} |\n`);
  return `| rule | what it finds | severity |\n|---|---|---|\n${rows.join('')}`;
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

/** What the command says of a sheet's findings, as a page shows it. */
export function said({ findings, procedures }: CheckReport, text: string): string {
  const surroundings: Surroundings = {
    nameOf: (uri) =>
      uri.startsWith('file:') ? 'sheet.quarrel' : uri.replace(/^quarrel:\/(.*)\.quarrel$/, 'quarrel:$1'),
    textOf: (uri) => (uri.startsWith('file:') ? text : undefined),
    procedures: procedures.map(({ procedure }) => procedure),
    colours: false,
  };
  return findings.map((finding) => textOf(finding, surroundings)).join('\n');
}
