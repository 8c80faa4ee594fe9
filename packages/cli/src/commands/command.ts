import { Command } from 'commander';
import type { ExitCode, Io } from '../io.js';

/** Makes a part of the command; what it comes to goes to `done`. */
export type Subcommand = (io: Io, done: (code: ExitCode) => void) => Command;

/** A command that leaves exits, wording and output to `run`. */
export function plainCommand(name: string, io: Io): Command {
  return new Command(name)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.stdout.write(text),
      writeErr: (text) => io.stderr.write(text),
      // `run` words what is wrong with the arguments.
      outputError: () => undefined,
      getOutHelpWidth: () => 100,
      getErrHelpWidth: () => 100,
      getOutHasColors: () => io.stdout.colours,
      getErrHasColors: () => io.stderr.colours,
    })
    .helpOption('-h, --help', 'show this help');
}

/** Examples as help shows them. */
export function examples(...lines: readonly string[]): string {
  return `\nExamples:\n${lines.map((line) => `  ${line}\n`).join('')}`;
}
