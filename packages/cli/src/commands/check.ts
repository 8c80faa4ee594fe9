import type { Finding } from '@quarrel/checks';
import { type ExitCode, type Io, refuse } from '../io.js';
import { gatherSheets } from '../sheets/gather.js';
import { choiceOf } from './choice.js';
import { examples, plainCommand, type Subcommand } from './command.js';

interface Options {
  readonly format: string;
  readonly failOn: string;
  readonly explainSilence?: true;
}

/** `quarrel check`: findings of sheets, over every situation that their procedures cover. */
export const checkCommand: Subcommand = (io, done) =>
  plainCommand('check', io)
    .summary('say where procedures contradict themselves, their rules or their acts')
    .description(
      'Checks every procedure in sheets over every situation it covers, and says for each finding where it stands, in which\n' +
        'situations it happens, which steps lead there, why it matters and what to do.',
    )
    .argument('<path...>', 'sheets, or folders with sheets')
    .option('--format <format>', 'text or json', 'text')
    .option('--fail-on <severity>', 'the least severity that makes the exit code 1: error, warning or never', 'error')
    .option('--explain-silence', 'also say which estimates are silent, why, and which line would wake them')
    .addHelpText(
      'after',
      examples(
        'quarrel check stone-chip.quarrel',
        'quarrel check procedures --fail-on warning',
        'quarrel check stone-chip.quarrel --explain-silence',
        'quarrel check . --format json > findings.json',
      ),
    )
    .action(async (paths: readonly string[], options: Options) => done(await check(paths, options, io)));

async function check(paths: readonly string[], options: Options, io: Io): Promise<ExitCode> {
  const format = choiceOf('--format', options.format, ['text', 'json']);
  if (format.kind === 'refusal') return refuse(io, format);
  const failOn = choiceOf('--fail-on', options.failOn, ['error', 'warning', 'never']);
  if (failOn.kind === 'refusal') return refuse(io, failOn);
  const gathered = gatherSheets(paths, io);
  if (gathered.kind === 'refusal') return refuse(io, gathered);

  const { checkSheets, readGathered, reportJson, reportOf, reportText, surroundingsOf, usedWithErrors } = await import(
    '../check.js'
  );
  const read = await readGathered(gathered, io);
  const report = reportOf(checkSheets(read.sheets), read, { withSilences: options.explainSilence ?? false });
  const isText = format.choice === 'text';
  const surroundings = surroundingsOf(read, io.cwd, isText && io.stdout.colours);
  io.stdout.write(isText ? reportText(report, surroundings) : reportJson(report, surroundings));
  io.stderr.write(usedWithErrors(read, surroundings));
  return fails(report.findings, failOn.choice) ? 1 : 0;
}

function fails(findings: readonly Finding[], on: 'error' | 'warning' | 'never'): boolean {
  switch (on) {
    case 'error':
      return findings.some(({ severity }) => severity === 'error');
    case 'warning':
      return findings.some(({ severity }) => severity === 'error' || severity === 'warning');
    case 'never':
      return false;
  }
}
