import { resolve } from 'node:path';
import { type NewFile, writeTogether } from '../files/write.js';
import { type ExitCode, type Io, type Refusal, refusal, refuse } from '../io.js';
import { gatherSheets } from '../sheets/gather.js';
import { nameOfPath } from '../sheets/names.js';
import { choiceOf } from './choice.js';
import { examples, plainCommand, type Subcommand } from './command.js';

interface Options {
  readonly procedure?: string;
  readonly for: readonly string[];
  readonly format?: string;
  readonly out?: string;
  readonly draft?: true;
}

/** `quarrel compile`: checklists of procedures, for one situation, for some, or for all they cover. */
export const compileCommand: Subcommand = (io, done) =>
  plainCommand('compile', io)
    .summary('make timed checklists of procedures')
    .description(
      'Compiles procedures into checklists, for every situation they cover or for those that --for names.\n' +
        'A procedure with errors is not compiled, unless --draft stamps it DRAFT. Either everything is written or nothing.',
    )
    .argument('<path...>', 'sheets, or folders with sheets')
    .option('--procedure <name>', 'compile this procedure alone')
    .option(
      '--for <condition>',
      'what the job is like, as in "break is star"; several of them all hold',
      (one: string, before: readonly string[]) => [...before, one],
      [],
    )
    .option('--format <format>', 'html, md or json (html with --out, md without)')
    .option('--out <folder>', 'write one file for each procedure into this folder, instead of one to the output')
    .option('--draft', 'compile procedures with errors too, stamped DRAFT')
    .addHelpText(
      'after',
      examples(
        'quarrel compile stone-chip.quarrel --out out',
        'quarrel compile stone-chip.quarrel --for "break is star" --for "glass-temperature is 8 °C"',
        'quarrel compile procedures --procedure surface-pit --format json > surface-pit.json',
      ),
    )
    .action(async (paths: readonly string[], options: Options) => done(await compile(paths, options, io)));

async function compile(paths: readonly string[], options: Options, io: Io): Promise<ExitCode> {
  const format = choiceOf('--format', options.format ?? (options.out === undefined ? 'md' : 'html'), [
    'html',
    'md',
    'json',
  ]);
  if (format.kind === 'refusal') return refuse(io, format);
  const gathered = gatherSheets(paths, io);
  if (gathered.kind === 'refusal') return refuse(io, gathered);

  const work = await import('../compile.js');
  const read = await work.readGathered(gathered, io);
  const surroundings = work.surroundingsOf(read, io.cwd, io.stderr.colours);
  const chosen = work.choose(read.sheets, options.procedure, surroundings);
  if (chosen.kind === 'refusal') return refuse(io, chosen);
  if (options.out === undefined && chosen.procedures.length > 1) return refuse(io, tooMany(chosen.procedures));

  const files: NewFile[] = [];
  let unfinished = 0;
  for (const procedure of chosen.procedures) {
    const supposed = work.supposedFor(procedure, options.for);
    if (supposed.kind === 'refusal') return refuse(io, supposed);
    const against = await work.findingsAgainst(procedure, gathered, io);
    const errors = against.filter(({ severity }) => severity === 'error');
    if (errors.length > 0 && options.draft !== true) {
      io.stderr.write(errors.map((finding) => `${work.textOf(finding, surroundings)}\n`).join(''));
      io.stderr.write(work.notCompiled(procedure, errors.length));
      unfinished += 1;
      continue;
    }
    const made = work.checklistOf(procedure, supposed.tests, errors.length > 0);
    if (made.kind === 'refusal') return refuse(io, made);
    io.stderr.write(work.withWarnings(procedure, work.countOf(against, 'warning')));
    const name = work.fileName(procedure, options.for, format.choice);
    const path = resolve(io.cwd, options.out ?? '.', name);
    files.push({ path, name: nameOfPath(path, io.cwd), text: work.render(made.checklist, format.choice) });
  }
  if (unfinished > 0) {
    if (files.length > 0) io.stderr.write('Nothing was written.\n');
    return 1;
  }
  if (options.out === undefined) {
    for (const { text } of files) io.stdout.write(text);
    return 0;
  }
  return write(files, io);
}

function tooMany(procedures: readonly { readonly name: string }[]): Refusal {
  return refusal(
    `There are ${procedures.length} procedures: ${procedures.map(({ name }) => name).join(', ')}.`,
    'Say which with --procedure, or give a folder for all of them with --out.',
  );
}

function write(files: readonly NewFile[], io: Io): ExitCode {
  const names = files.map(({ name }) => name.toLowerCase());
  const twice = files.find(({ name }, index) => names.indexOf(name.toLowerCase()) < index);
  if (twice !== undefined) {
    return refuse(io, refusal(`Two procedures would be written to ${twice.name}.`, 'Compile their sheets one by one.'));
  }
  const written = writeTogether(files, io.files);
  if (written.kind === 'refusal') return refuse(io, written);
  io.stdout.write(files.map(({ name }) => `${name}\n`).join(''));
  return 0;
}
