import type { Run, StepRecord } from '@quarrel/analysis';
import { type Effect, type Step, subjectsOf } from '@quarrel/model';
import type { Known } from '../runs.js';
import { heading } from './declarations.js';
import { capital, code, list, page, paragraphs, plain } from './markdown.js';
import { spanWords } from './quantity.js';
import { startWords, stateWords, thingsInHand, whereWords } from './words-of-runs.js';

/** A step: when it starts, in which situations it runs, what it finds and leaves, what is in hand. */
export function stepHover(step: Step, { run, numbering, procedure }: Known): string {
  const record = run?.steps[numbering.of(step)];
  const title = heading(step.text, 'step', step.id);
  if (run === undefined || record === undefined)
    return page([title, timesWords(step), ...paragraphs(step.documentation)]);
  if (record.before.reached === run.situations.store.nowhere) {
    return page([title, 'No situation reaches it.', ...paragraphs(step.documentation)]);
  }
  const start = startWords(record.before);
  const where = whereWords(record.before.reached, run.covered, run);
  return page([
    title,
    [start === undefined ? undefined : capital(start), `runs ${where}`, timesWords(step)]
      .filter((one) => one !== undefined)
      .join(' · '),
    list('States', stateLines(step, record, run, procedure)),
    list('In hand', handLines(step, record, run, procedure)),
    ...paragraphs(step.documentation),
  ]);
}

function timesWords({ takes, hold }: Step): string | undefined {
  const parts = [
    ...(takes === undefined ? [] : [`takes ${spanWords(takes)}`]),
    ...(hold === undefined ? [] : [`holds ${spanWords(hold)}`]),
  ];
  return parts.length === 0 ? undefined : parts.join(', ');
}

/** The states that the step changes, and those that its acts ask about. */
function stateLines(
  { effects }: Step,
  { before, after }: StepRecord,
  run: Run,
  { vocabulary: { states, acts } }: Known['procedure'],
): readonly string[] {
  const asked = new Set(
    effects.flatMap((effect) => {
      const act = effect.kind === 'act' ? acts.find(({ name }) => name === effect.act) : undefined;
      return act?.needs.flatMap(({ test }) => subjectsOf(test)) ?? [];
    }),
  );
  const goesOn = after.reached !== run.situations.store.nowhere;
  return states.flatMap((state) => {
    const { name } = state;
    const was = stateWords(state, before, run);
    const is = goesOn ? stateWords(state, after, run) : was;
    if (was === is) return asked.has(name) ? [`${code(name)}: ${was}`] : [];
    return [`${code(name)}: ${was} → ${is}`];
  });
}

function handLines(
  { effects }: Step,
  { things }: StepRecord,
  run: Run,
  procedure: Known['procedure'],
): readonly string[] {
  const { things: declared } = procedure.vocabulary;
  const label = (name: string | undefined): string =>
    name === undefined ? 'nothing' : plain(declared.find((one) => one.name === name)?.label ?? name);
  return things.flatMap((record) => {
    const effect: Effect | undefined = effects[record.effect];
    if (effect?.kind !== 'with' || record.reached === run.situations.store.nowhere) return [];
    const amount = effect.amount === undefined ? '' : `, ${plain(spanWords(effect.amount))}`;
    const ways = thingsInHand(record, procedure, run);
    return [
      `${ways.map(({ name, where, isAlways }) => (isAlways ? label(name) : `${label(name)} ${where}`)).join('; ')}${amount}`,
    ];
  });
}
