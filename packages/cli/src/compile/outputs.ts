import {
  type Checklist,
  checklistToHtml,
  checklistToJson,
  checklistToMarkdown,
  compileProcedure,
} from '@quarrel/checklist';
import type { Procedure, Test } from '@quarrel/model';
import { digestOf, shortDigest } from '@quarrel/model';
import { type Refusal, refusal } from '../io.js';
import { listed } from '../report/words.js';

export type Format = 'html' | 'md' | 'json';

/** The checklist of a procedure for the situations in which all of `suppose` holds; at least one of them is covered. */
export function checklistOf(
  procedure: Procedure,
  suppose: readonly Test[],
  draft: boolean,
): { readonly kind: 'checklist'; readonly checklist: Checklist } | Refusal {
  const compiled = compileProcedure(procedure, { suppose, draft });
  switch (compiled.kind) {
    case 'checklist':
      return compiled;
    case 'not-covered':
      return refusal(
        `${procedure.name} covers no situation at all.`,
        'Look at its covers: its lines contradict each other.',
      );
    case 'too-tangled':
      return refusal(
        `${procedure.name} is too tangled to be followed through every situation.`,
        `Most of it is owed to ${listed(compiled.conditions, 'and')}; name some of them with --for.`,
      );
  }
}

export function render(checklist: Checklist, format: Format): string {
  switch (format) {
    case 'html':
      return checklistToHtml(checklist);
    case 'md':
      return checklistToMarkdown(checklist);
    case 'json':
      return checklistToJson(checklist);
  }
}

const longest = 80;

/** `stone-chip.html`, or `stone-chip-for-break-is-star.html`: one name for one procedure and what was supposed. */
export function fileName({ name }: Procedure, supposed: readonly string[], format: Format): string {
  if (supposed.length === 0) return `${name}.${format}`;
  const words = supposed.map(slug).join('-and-');
  const whole = `${name}-for-${words}`;
  // What is left out of a long name still has to tell two of them apart.
  const short = whole.length <= longest ? whole : `${whole.slice(0, longest)}-${shortDigest(digestOf(supposed))}`;
  return `${short}.${format}`;
}

function slug(text: string): string {
  return text
    .toLowerCase()
    .replace(/[-−](?=\d)/g, (sign, at: number, all: string) =>
      /[\p{L}\d]/u.test(all[at - 1] ?? '') ? sign : ' minus ',
    )
    .replace(/(?<=\d)\.(?=\d)/g, ' point ')
    .replace(/</g, ' below ')
    .replace(/>/g, ' above ')
    .replace(/=/g, ' or equal ')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
}
