import type { Command, CommanderError } from 'commander';
import { type Refusal, refusal } from './io.js';
import { listed } from './report/words.js';

/** What is wrong with the arguments, in our words, and where to read on. */
export function wordsFor(error: CommanderError, argv: readonly string[], program: Command): Refusal {
  const quoted = /'([^']*)'/.exec(error.message)?.[1] ?? '';
  const [named] = argv.flatMap((word) => program.commands.find((command) => command.name() === word) ?? []);
  const usage = named === undefined ? program.usage() : `${named.name()} ${named.usage()}`;
  const help = `"quarrel ${named === undefined ? '' : `${named.name()} `}--help" says more.`;
  const meant = /\(Did you mean (?:one of )?(.*)\?\)/.exec(error.message)?.[1];
  const more = meant === undefined ? help : `Did you mean ${listed(meant.split(', '), 'or')}? ${help}`;
  switch (error.code) {
    case 'commander.unknownCommand': {
      const names = program.commands.map((command) => command.name());
      return refusal(`There is no command "${quoted}"; there are ${listed(names, 'and')}.`, more);
    }
    case 'commander.unknownOption':
      return refusal(`There is no option ${quoted}${named === undefined ? '' : ` of ${named.name()}`}.`, more);
    case 'commander.missingArgument':
      return refusal(`Something is missing: ${usage}.`, more);
    case 'commander.optionMissingArgument':
      return refusal(`${quoted.replace(/ .*/, '')} needs something behind it: ${quoted}.`, more);
    case 'commander.excessArguments':
      return refusal(`That is too much: ${usage}.`, more);
    default:
      return refusal(error.message.replace(/^error: /, ''), more);
  }
}
