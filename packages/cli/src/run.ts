import { type Command, CommanderError } from 'commander';
import manifest from '../package.json' with { type: 'json' };
import { wordsFor } from './arguments.js';
import { checkCommand } from './commands/check.js';
import { examples, plainCommand } from './commands/command.js';
import { compileCommand } from './commands/compile.js';
import { explainCommand } from './commands/explain.js';
import { formatCommand } from './commands/format.js';
import { newCommand } from './commands/new.js';
import { serveCommand } from './commands/serve.js';
import { type ExitCode, type Io, refuse } from './io.js';

/** The command as a function: `argv` is what follows the word `quarrel`. Never throws, never ends the process. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  let code: ExitCode = 0;
  const program = commandTree(io, (result) => {
    code = result;
  });
  try {
    await program.parseAsync(argv, { from: 'user' });
    return code;
  } catch (error) {
    if (!(error instanceof CommanderError)) return faultOfOurs(error, io);
    if (error.exitCode === 0) return 0;
    // Without any argument the help has been shown instead.
    return error.code === 'commander.help' ? 2 : refuse(io, wordsFor(error, argv, program));
  }
}

function commandTree(io: Io, done: (code: ExitCode) => void): Command {
  const program = plainCommand('quarrel', io)
    .description(
      'Checks laminated-glass repair procedures over every situation they cover, and compiles them into checklists.',
    )
    .version(manifest.version, '-V, --version', 'show the version')
    .helpCommand('help [command]', 'show the help of a command')
    .addHelpText(
      'after',
      `${examples('quarrel new my-procedures', 'quarrel check my-procedures', 'quarrel compile my-procedures --out out')}
Exit codes: 0 fine; 1 findings, or sheets that are not formatted; 2 wrong use, or input that cannot be read.
Local law and a qualified person decide what may be repaired.
`,
    );
  for (const make of [checkCommand, compileCommand, formatCommand, explainCommand, newCommand, serveCommand]) {
    program.addCommand(make(io, done));
  }
  return program;
}

function faultOfOurs(error: unknown, io: Io): ExitCode {
  const what = error instanceof Error ? error.message : String(error);
  io.stderr.write(
    `Quarrel has come upon a fault of its own and stops here (${what}); please report it, with the sheet if you can.\n`,
  );
  if (io.debug && error instanceof Error) io.stderr.write(`${error.stack ?? ''}\n`);
  return 2;
}
