import { checkSheets } from '@quarrel/checks';
import { readSheets } from '@quarrel/language';
import type { Severity } from '@quarrel/model';
import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver-protocol/node';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

/** Rule, severity, place (as the protocol counts) and the fact of a finding, in one line. */
export type Line = string;

/** What a server was heard to find in a sheet; hints, which the command does not give, are left out. */
export function heard(told: readonly Diagnostic[]): readonly Line[] {
  return told
    .filter(({ severity }) => severity !== DiagnosticSeverity.Hint)
    .map(({ code, severity, range: { start, end }, message }) =>
      lineOf(code, severity, [start.line, start.character, end.line, end.character], String(message)),
    )
    .sort();
}

/** What is found in sheets that are read and checked afresh, all together: for each, by address, what should be heard. */
export async function foundAfresh(
  texts: Readonly<Record<string, string>>,
  workspace: string,
): Promise<Readonly<Record<string, readonly Line[]>>> {
  const uris = Object.keys(texts);
  const read = async (uri: string) => {
    const text = texts[uri];
    return text === undefined ? ({ kind: 'missing' } as const) : ({ kind: 'text', text } as const);
  };
  const { findings } = checkSheets((await readSheets(uris, { read }, { workspace })).sheets);
  return Object.fromEntries(
    uris.map((uri) => [
      uri,
      findings
        .filter(({ range }) => range.uri === uri)
        .map(({ rule, severity, range: { start, end }, message }) =>
          lineOf(rule, severities[severity], [start.line, start.column, end.line, end.column], message),
        )
        .sort(),
    ]),
  );
}

function lineOf(rule: unknown, severity: unknown, place: readonly number[], message: string): Line {
  return `${rule} ${severity} ${place.join(':')} ${message.split('\n')[0]}`;
}
