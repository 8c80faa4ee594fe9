import { join, resolve } from 'node:path';
import { type NewFile, writeTogether } from '../files/write.js';
import { type ExitCode, type Io, refusal, refuse } from '../io.js';
import { nameOfPath } from '../sheets/names.js';
import { examples, plainCommand, type Subcommand } from './command.js';

/** `quarrel new`: a first sheet of one's own, complete and without findings. */
export const newCommand: Subcommand = (io, done) =>
  plainCommand('new', io)
    .summary('write a first sheet of your own')
    .description(
      'Writes a small procedure with comments, and a sheet of what it works with, into a folder. It checks without findings\n' +
        'and is there to be changed. Files that are there already are never written over.',
    )
    .argument('<folder>', 'the folder to write into; it is made where it is missing')
    .addHelpText('after', examples('quarrel new my-procedures'))
    .action(async (folder: string) => done(await create(folder, io)));

async function create(given: string, io: Io): Promise<ExitCode> {
  const { default: templates } = await import('text:packages/cli/templates/*.quarrel');
  const folder = resolve(io.cwd, given);
  const files = Object.entries(templates).map(([path, text]): NewFile => {
    const target = join(folder, path.replace(/^.*\//, ''));
    return { path: target, name: nameOfPath(target, io.cwd), text };
  });
  const there = files.filter(({ path }) => io.files.look(path).kind !== 'missing').map(({ name }) => name);
  if (there.length > 0) {
    return refuse(
      io,
      refusal(`There is already ${there.join(' and ')}.`, 'Give another folder; nothing is written over.'),
    );
  }
  const written = writeTogether(files, io.files);
  if (written.kind === 'refusal') return refuse(io, written);
  const name = nameOfPath(folder, io.cwd);
  io.stdout.write(
    `${files.map((file) => `${file.name}\n`).join('')}
Next:
  quarrel check ${name}
  quarrel compile ${name} --out ${name}/out
Every value in these sheets is an example. Put in those of your own datasheets before anyone works from them.
`,
  );
  return 0;
}
