import { shortDigest } from '@quarrel/model';
import type { Checklist, ChecklistLimit, ChecklistStop, KitItem } from '../checklist.js';
import { draftWarning } from '../notice.js';
import {
  beyondLimits,
  clockLegend,
  kindHeadings,
  kitWords,
  limitOriginWords,
  limitsByProfile,
  limitsLead,
  limitWords,
  scopeWords,
  stepWords,
  timeWords,
} from '../wording.js';
import { escaped } from './escape.js';
import { cautionLine, flowLines, quoted, stopWords } from './flow.js';

/**
 * A checklist in GitHub-flavoured Markdown, with task boxes; made so that it can be read and worked from as plain text, too.
 */
export function checklistToMarkdown(checklist: Checklist): string {
  const blocks = [
    ...head(checklist),
    ...section('What you need', kit(checklist)),
    ...section(
      'Throughout the job',
      checklist.cautions.map((caution) => quoted([cautionLine(caution)])),
    ),
    ...limits(checklist),
    ['## Steps'],
    [clockLegend],
    ...flowLines(checklist.flow, checklist.steps, 3),
    ...section('Time', [time(checklist)]),
    ...section('Sources', [checklist.sources.map(({ of, source }) => `- ${escaped(of)}: ${escaped(source)}`)]),
    ...section('Notice', [quoted([...checklist.notice]), [identity(checklist)]]),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

type Blocks = readonly (readonly string[])[];

function head(checklist: Checklist): Blocks {
  const { procedure, scope, total, draft } = checklist;
  const facts = [
    `- For: ${escaped(scopeWords(scope.supposed))}`,
    ...(scope.covers.length === 0 ? [] : [`- The procedure covers: ${scope.covers.map(escaped).join('; ')}`]),
    ...(total === undefined ? [] : [`- Time, start to end: ${timeWords(total)}`]),
  ];
  return [
    [`# ${escaped(procedure.label)}`],
    ...(draft ? [quoted([`**${draftWarning}**`])] : []),
    ...paragraphs(procedure.documentation),
    facts,
    ['If the job is not one of these, stop: this checklist is not for it.'],
    quoted(checklist.notice.slice(0, 1)),
  ];
}

function paragraphs(text: string | undefined): Blocks {
  if (text === undefined) return [];
  return text
    .split(/\n\s*\n/)
    .filter((paragraph) => paragraph.trim() !== '')
    .map((paragraph) => [escaped(paragraph)]);
}

function section(title: string, blocks: Blocks): Blocks {
  const filled = blocks.filter((lines) => lines.length > 0);
  return filled.length === 0 ? [] : [[`## ${title}`], ...filled];
}

function kit({ kit: { things, wear }, steps }: Checklist): Blocks {
  const item = (one: KitItem): string => `- [ ] ${escaped(kitWords(one))} (${stepWords(one.steps, steps)})`;
  const kinds = [...new Set(things.map((one) => one.kind))];
  return [
    ...(wear.length === 0
      ? []
      : [
          ['**To wear**'],
          wear.map(({ text, against }) => `- [ ] ${escaped(text)} (${against.map(escaped).join(', ')})`),
        ]),
    ...kinds.flatMap((kind) => [[`**${kindHeadings[kind]}**`], things.filter((one) => one.kind === kind).map(item)]),
  ];
}

function limits({ limits: lines }: Checklist): Blocks {
  if (lines.length === 0) return [];
  const box = (one: ChecklistLimit): string => {
    const origin = limitOriginWords(one);
    return `- [ ] ${escaped(limitWords(one))}${origin === '' ? '' : ` (${escaped(origin)})`}`;
  };
  const groups = [...limitsByProfile(lines)].flatMap(([profile, group]) => [
    [`**${escaped(profile)}**`],
    group.map(box),
  ]);
  return [['## Limits'], [`${limitsLead} ${stopWords(beyondLimits)}`], ...groups];
}

function time({ total, stops, steps }: Checklist): readonly string[] {
  const stopLine = (stop: ChecklistStop): string => {
    const where = stop.steps.length === 0 ? '' : ` in ${stepWords(stop.steps, steps)}`;
    return `- Stopped${where} after ${timeWords(stop.total)}: ${escaped(stop.reason)}`;
  };
  return [
    total === undefined ? '- No way through this checklist comes to its end.' : `- The whole job: ${timeWords(total)}`,
    ...stops.map(stopLine),
  ];
}

function identity({ procedure, digest, draft }: Checklist): string {
  const revision = procedure.revision === undefined ? '' : `, revision ${escaped(procedure.revision)}`;
  return `${draft ? 'DRAFT of ' : ''}${escaped(procedure.name)}${revision}, digest ${shortDigest(digest)}`;
}
