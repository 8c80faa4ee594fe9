import type { Finding } from '@quarrel/checks';
import type { Procedure, SourceRange } from '@quarrel/model';
import colours from 'picocolors';
import { excerpt } from './excerpt.js';
import { printable } from './printable.js';
import { lineWidth, row, wrapped } from './rows.js';
import { pathWords, regionLines, typicalWords } from './situation.js';

/** What a finding is shown with. */
export interface Surroundings {
  /** How a sheet is called. */
  nameOf(uri: string): string;
  /** The text of a sheet that was read. */
  textOf(uri: string): string | undefined;
  /** The procedures that were checked. */
  readonly procedures: readonly Procedure[];
  readonly colours: boolean;
}

/**
 * A finding for people: what, where, the line itself, in which situations, one of them, the steps that lead there, why, and what
 * to do. Ends with a line break.
 */
export function textOf(finding: Finding, surroundings: Surroundings): string {
  const paint = paints(surroundings.colours);
  const { range, message, because, source, advice, related, situation } = finding;
  const text = surroundings.textOf(range.uri);
  const procedure = procedureOf(finding, surroundings.procedures);
  const label = paint.label;
  const typical = situation === undefined || procedure === undefined ? '' : typicalWords(situation, procedure, range);
  const rows = [
    row('when', situation === undefined ? [] : regionLines(situation), label),
    row('for example', [typical], label),
    row('on the way', situation === undefined ? [] : [pathWords(situation)], label),
    row(
      'see',
      (related ?? []).map((one) => `${placeOf(one.range, surroundings)}  ${printable(one.message)}`),
      label,
    ),
    row('why', [printable(because ?? '')], label),
    row('source', [printable(source ?? '')], label),
    row('to do', [printable(advice ?? '')], label),
  ].join('');
  return [
    `${paint[finding.severity](`${finding.rule} (${finding.severity})`)}  ${placeOf(range, surroundings)}\n\n`,
    ...wrapped(printable(message), lineWidth - 2).map((line) => `  ${paint.message(line)}\n`),
    '\n',
    text === undefined ? '' : excerpt(text, range, paint[finding.severity]),
    text === undefined || rows === '' ? '' : '\n',
    rows,
  ].join('');
}

/** `sheet.quarrel:41:5`, as terminals make it a link; of a sheet that ships, which nobody can open, the name alone. */
export function placeOf({ uri, start }: SourceRange, { nameOf }: Pick<Surroundings, 'nameOf'>): string {
  if (!uri.startsWith('file:')) return nameOf(uri);
  return `${printable(nameOf(uri))}:${start.line + 1}:${start.column + 1}`;
}

/** The procedure at fault. Sheets that do not use one another may have procedures of one name. */
export function procedureOf({ procedure, range }: Finding, all: readonly Procedure[]): Procedure | undefined {
  const named = all.filter(({ name }) => name === procedure);
  return named.find(({ uri }) => uri === range.uri) ?? named[0];
}

/** How the parts of a finding are coloured. */
export function paints(isColoured: boolean): Readonly<Record<Finding['severity'] | 'label' | 'message', Paint>> {
  const { red, yellow, blue, dim, bold } = colours.createColors(isColoured);
  return {
    error: (text) => bold(red(text)),
    warning: (text) => bold(yellow(text)),
    info: (text) => bold(blue(text)),
    label: dim,
    message: bold,
  };
}

type Paint = (text: string) => string;
