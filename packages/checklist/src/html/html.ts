import { shortDigest } from '@quarrel/model';
import type { Checklist, ChecklistLimit, KitItem } from '../checklist.js';
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
import { caution } from './caution.js';
import { type Content, html, Markup } from './markup.js';
import { stopWords, tableBodies } from './rows.js';
import { styleFor } from './style.js';

/** A checklist as one self-contained page to print or to read: no script, nothing fetched, A4 and Letter. */
export function checklistToHtml(checklist: Checklist): string {
  const { procedure, draft, cautions, flow, steps } = checklist;
  const identity = identityOf(checklist);
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${draft ? 'DRAFT: ' : ''}${procedure.label}</title>
<style>
${new Markup(styleFor(identity))}</style>
</head>
<body>
<header>
<h1>${procedure.label}</h1>
<p class="identity">${identity}</p>
${draft ? html`<p class="draft">${draftWarning}</p>\n` : undefined}${paragraphs(procedure.documentation)}${facts(checklist)}
<div class="job"><span>Job, vehicle</span><span>Date, start</span><span>Done by</span></div>
<p class="notice" role="note">${checklist.notice.join(' ')}</p>
</header>
<main>
${kit(checklist)}${
  cautions.length === 0
    ? undefined
    : html`<section>\n<h2>Throughout the job</h2>\n${cautions.map(caution)}\n</section>\n`
}${limits(checklist)}<section>
<table>
<caption><h2>Steps</h2>
${clockLegend}</caption>
<colgroup><col><col class="clock"><col class="noted"></colgroup>
<thead><tr><th scope="col">${draft ? 'DRAFT: ' : ''}${procedure.label}</th><th scope="col">Clock</th><th scope="col">Begun at</th></tr></thead>
${tableBodies(flow, steps)}</table>
</section>
${times(checklist)}${sources(checklist)}</main>
<footer class="end">
<p>${checklist.notice[0]}</p>
<p class="identity">${identity}</p>
</footer>
</body>
</html>
`.text;
}

/** What was compiled, in one line. */
function identityOf({ procedure, digest, draft }: Checklist): string {
  const revision = procedure.revision === undefined ? '' : `, revision ${procedure.revision}`;
  return `${draft ? 'DRAFT of ' : ''}${procedure.label} (${procedure.name})${revision}, digest ${shortDigest(digest)}`;
}

function paragraphs(text: string | undefined): readonly Markup[] {
  return (text ?? '')
    .split(/\n\s*\n/)
    .filter((paragraph) => paragraph.trim() !== '')
    .map((paragraph) => html`<p>${paragraph.trim()}</p>\n`);
}

function facts({ scope, total }: Checklist): Markup {
  return html`<dl class="facts">
<dt>This checklist is for</dt><dd class="main">${scopeWords(scope.supposed)}</dd>
${scope.covers.length === 0 ? undefined : html`<dt>The procedure covers</dt><dd>${scope.covers.join('; ')}</dd>\n`}${
  total === undefined ? undefined : html`<dt>Start to end</dt><dd class="main">${timeWords(total)}</dd>\n`
}</dl>
<p>If the job is not one of these, stop: this checklist is not for it.</p>`;
}

function kit({ kit: { things, wear }, steps }: Checklist): Content {
  if (things.length === 0 && wear.length === 0) return undefined;
  const line = (words: string, where: string): Markup =>
    html`<li><label><input type="checkbox"><span>${words} <small>(${where})</small></span></label></li>\n`;
  const group = (title: string, lines: readonly Markup[]): Markup =>
    html`<div>\n<h3>${title}</h3>\n<ul>\n${lines}</ul>\n</div>\n`;
  const itemLine = (item: KitItem): Markup => line(kitWords(item), stepWords(item.steps, steps));
  const kinds = [...new Set(things.map((item) => item.kind))];
  return html`<section>
<h2>What you need</h2>
<div class="kit">
${
  wear.length === 0
    ? undefined
    : group(
        'To wear',
        wear.map(({ text, against }) => line(text, against.join(', '))),
      )
}${kinds.map((kind) => group(kindHeadings[kind], things.filter((item) => item.kind === kind).map(itemLine)))}</div>
</section>
`;
}

function limits({ limits: lines }: Checklist): Content {
  if (lines.length === 0) return undefined;
  const box = (one: ChecklistLimit): Markup =>
    html`<li><label><input type="checkbox"><span>${limitWords(one)}<br><small>${limitOriginWords(one)}</small></span></label></li>\n`;
  const groups = [...limitsByProfile(lines)].map(
    ([profile, group]) => html`<h3>${profile}</h3>\n<ul>\n${group.map(box)}</ul>\n`,
  );
  return html`<section class="limits">\n<h2>Limits</h2>\n<p>${limitsLead} ${stopWords(beyondLimits)}</p>\n${groups}</section>\n`;
}

function times({ total, stops, steps }: Checklist): Markup {
  const whole =
    total === undefined ? 'No way through this checklist comes to its end.' : `The whole job: ${timeWords(total)}.`;
  const stopLines = stops.map((stop) => {
    const where = stop.steps.length === 0 ? '' : ` in ${stepWords(stop.steps, steps)}`;
    return html`<li>Stopped${where} after ${timeWords(stop.total)}: ${stop.reason}</li>\n`;
  });
  return html`<section class="times">
<h2>Time</h2>
<ul>
<li>${whole}</li>
${stopLines}</ul>
</section>
`;
}

function sources({ sources: list }: Checklist): Content {
  if (list.length === 0) return undefined;
  const lines = list.map(({ of, source }) => html`<li>${of}: ${source}</li>\n`);
  return html`<section class="sources">\n<h2>Sources</h2>\n<ul>\n${lines}</ul>\n</section>\n`;
}
