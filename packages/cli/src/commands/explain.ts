import { type ExitCode, type Io, refusal, refuse } from '../io.js';
import { listed } from '../report/words.js';
import { examples, plainCommand, type Subcommand } from './command.js';

/** `quarrel explain`: what a rule is for, and how to mend what it finds. */
export const explainCommand: Subcommand = (io, done) =>
  plainCommand('explain', io)
    .summary('tell what a rule is for, and how to mend what it finds')
    .description(
      'Tells why a rule is there, shows a sheet that breaks it, and how to mend it; for the rules and needs of the trade sheets\n' +
        'that ship, what they ask, why, and the source. Without a name it lists all rules.',
    )
    .argument('[rule]', 'the name of a rule, as a finding gives it')
    .addHelpText(
      'after',
      examples('quarrel explain gap-in-choice', 'quarrel explain cure-after-fill', 'quarrel explain'),
    )
    .action(async (rule: string | undefined) => done(await explain(rule, io)));

async function explain(name: string | undefined, io: Io): Promise<ExitCode> {
  const { explanations, listText, nearest } = await import('../explain.js');
  const all = await explanations();
  if (name === undefined) {
    io.stdout.write(listText(all, io.stdout.colours));
    return 0;
  }
  const found = all.filter((one) => one.name === name);
  if (found.length === 0) {
    const near = nearest(
      name,
      all.map((one) => one.name),
    );
    return refuse(
      io,
      refusal(
        `There is no rule called "${name}" in Quarrel or in the trade sheets that ship.`,
        near.length === 0
          ? '"quarrel explain" lists the rules there are. A rule of a sheet of yours is explained where it is declared.'
          : `Did you mean ${listed(near, 'or')}?`,
      ),
    );
  }
  io.stdout.write(found.map((one) => one.text(io.stdout.colours)).join('\n'));
  return 0;
}
