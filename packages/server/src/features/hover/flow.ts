import type { Run } from '@quarrel/analysis';
import { flowIn, type Repeat, type Stage, spokenDuration, type When } from '@quarrel/model';
import type { Known } from '../runs.js';
import { heading } from './declarations.js';
import { code, page, plain } from './markdown.js';
import { timeWords, whereWords } from './words-of-runs.js';

/** A stage: from when to when it is on the clock. */
export function stageHover(stage: Stage, { run, numbering }: Known): string {
  const title = heading(stage.label, 'stage');
  if (run === undefined) return title;
  const windows = [...flowIn(stage.body)].flatMap((part) => {
    const record = part.kind === 'step' ? run.steps[numbering.of(part)] : undefined;
    const start = record?.before.clock.over(record.before.reached);
    if (record === undefined || start === undefined) return [];
    return [{ start, end: record.after.clock.over(record.after.reached) ?? start }];
  });
  if (windows.length === 0) return page([title, 'No situation reaches a step of it.']);
  const first = Math.min(...windows.map(({ start }) => start.least));
  const last = Math.max(...windows.map(({ end }) => end.most));
  const end = Number.isFinite(last) ? `ends at ${spokenDuration(last)} at the latest` : 'has no latest end';
  return page([
    title,
    `Starts at ${spokenDuration(first)} at the earliest and ${end} · ${windows.length === 1 ? '1 step' : `${windows.length} steps`}`,
  ]);
}

/** A repeat: how often, and the time of all its passes. */
export function repeatHover(repeat: Repeat, { run, numbering }: Known): string {
  const { atMost } = repeat;
  const passes =
    atMost === undefined ? 'As many passes as it takes' : atMost === 1 ? 'One pass' : `1 to ${atMost} passes`;
  const record = run?.repeats[numbering.of(repeat)];
  const time = record?.time === undefined ? undefined : `${timeWords(record.time)} in all`;
  const isIdle = run !== undefined && record?.entered === run.situations.store.nowhere;
  const after =
    repeat.orElseStop === undefined
      ? 'goes on without the goal after the last pass'
      : 'stops without the goal after the last pass';
  return page([
    [`**${passes}**`, time, atMost === undefined ? undefined : after].filter((one) => one !== undefined).join(' · '),
    repeat.until === undefined ? undefined : `Until: ${plain(repeat.until)}`,
    isIdle ? 'No situation reaches it.' : undefined,
  ]);
}

/** A case of a `when`, or what is left for its `otherwise`: in which of the situations that come here it is taken. */
export function caseHover(when: When, index: number | 'otherwise', { run, numbering }: Known): string | undefined {
  if (run === undefined) return undefined;
  const first = numbering.firstCaseOf(when);
  const comes = run.cases[first]?.asked;
  if (comes === undefined) return undefined;
  if (comes === run.situations.store.nowhere) return 'No situation comes here.';
  if (index === 'otherwise') {
    const rest = run.fallthroughs[numbering.of(when)];
    return rest === undefined ? undefined : taken('Taken', rest, comes, run);
  }
  const record = run.cases[first + index];
  if (record === undefined) return undefined;
  if (record.free) return 'The test could not be read: it may come out either way.';
  if (record.asked === run.situations.store.nowhere) return '**Never** asked: the cases above take every situation.';
  const unknown = record.unknown.map(({ condition }) => code(condition));
  return page([
    taken('Holds', record.holds, record.asked, run),
    unknown.length === 0 ? undefined : `Not known here in some way of working: ${unknown.join(', ')}`,
  ]);
}

function taken(word: string, region: Run['covered'], within: Run['covered'], run: Run): string {
  if (region === run.situations.store.nowhere) return '**Never** holds for a situation that comes here.';
  if (region === within) return '**Always** holds for the situations that come here.';
  return `${word} ${whereWords(region, within, run)}`;
}
