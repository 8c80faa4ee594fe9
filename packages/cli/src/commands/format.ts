import { pathToFileURL } from 'node:url';
import { type NewFile, writeTogether } from '../files/write.js';
import { type ExitCode, type Io, refuse } from '../io.js';
import { counted } from '../report/words.js';
import { gatherSheets } from '../sheets/gather.js';
import { nameOfPath } from '../sheets/names.js';
import { examples, plainCommand, type Subcommand } from './command.js';

interface Options {
  readonly check?: true;
}

/** `quarrel format`: sheets in the house style. */
export const formatCommand: Subcommand = (io, done) =>
  plainCommand('format', io)
    .summary('put sheets into the house style')
    .description(
      'Puts sheets into the house style: indents, line breaks and spaces. Words and comments stay as they are. A sheet that\n' +
        'cannot be read is left alone, and the exit code is 1.',
    )
    .argument('<path...>', 'sheets, or folders with sheets')
    .option(
      '--check',
      'write nothing; name the sheets that are not in the house style, with exit code 1 if there are any',
    )
    .addHelpText('after', examples('quarrel format stone-chip.quarrel', 'quarrel format . --check'))
    .action(async (paths: readonly string[], options: Options) => done(await format(paths, options, io)));

async function format(paths: readonly string[], options: Options, io: Io): Promise<ExitCode> {
  const gathered = gatherSheets(paths, io);
  if (gathered.kind === 'refusal') return refuse(io, gathered);
  const { formatText, unreadableText } = await import('../format.js');
  const changed: NewFile[] = [];
  let unreadable = 0;
  for (const { path, real, text } of gathered.sheets) {
    const uri = pathToFileURL(path).href;
    const formatted = formatText(text, uri);
    if (formatted.problems.length > 0) {
      unreadable += 1;
      io.stderr.write(unreadableText({ uri, text, problems: formatted.problems }, io));
    } else if (formatted.text !== text) {
      // What a link leads to is written, not the link.
      changed.push({ path: real, name: nameOfPath(path, io.cwd), text: formatted.text });
    }
  }
  const names = changed.map(({ name }) => `${name}\n`).join('');
  if (unreadable > 0)
    io.stderr.write(
      `${counted(unreadable, 'sheet')} cannot be read and ${unreadable === 1 ? 'is' : 'are'} left alone.\n`,
    );
  if (options.check === true) {
    io.stdout.write(names);
    if (changed.length > 0)
      io.stderr.write(`${counted(changed.length, 'sheet')} not in the house style; "quarrel format" writes it.\n`);
    return changed.length > 0 || unreadable > 0 ? 1 : 0;
  }
  const written = writeTogether(changed, io.files);
  if (written.kind === 'refusal') return refuse(io, written);
  io.stdout.write(names);
  return unreadable > 0 ? 1 : 0;
}
