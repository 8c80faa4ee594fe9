import { type ExitCode, type Io, refusal, refuse } from '../io.js';
import { examples, plainCommand, type Subcommand } from './command.js';

interface Options {
  readonly stdio?: true;
  /** Watched by the server itself, which looks for it in the arguments of the process. */
  readonly clientProcessId?: string;
}

/** `quarrel serve`: the language server, for editors. */
export const serveCommand: Subcommand = (io, done) =>
  plainCommand('serve', io)
    .summary('be the language server of an editor')
    .description(
      'Speaks the Language Server Protocol with the editor that started it: findings as one types, mends, hover, completion\n' +
        'and the rest. It is not for typing at; an editor is told to start it. It ends when the editor goes.',
    )
    .option('--stdio', 'speak over the standard input and output')
    .option('--clientProcessId <id>', 'end as well when this process ends')
    .addHelpText('after', examples('quarrel serve --stdio'))
    .action(async (options: Options) => done(await serve(options, io)));

async function serve({ stdio }: Options, io: Io): Promise<ExitCode> {
  if (stdio !== true) {
    return refuse(
      io,
      refusal(
        'The server needs to know how the editor speaks to it, and there is one way: over standard input and output.',
        'Have the editor start "quarrel serve --stdio".',
      ),
    );
  }
  await io.serve();
  return 0;
}
