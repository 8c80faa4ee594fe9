import type { BranchCase, ChecklistObservation, ChecklistReading, ChecklistStep, FlowPart } from '../checklist.js';
import { clockWords, holdWords, passesWords, readingWords, supposedWords, thingWords, timeWords } from '../wording.js';
import { caution } from './caution.js';
import { type Content, html, type Markup } from './markup.js';

type Part<Kind extends FlowPart['kind']> = Extract<FlowPart, { kind: Kind }>;

/** The bodies of the table of steps: one for each stage, one for what stands between stages. */
export function tableBodies(flow: readonly FlowPart[], steps: readonly ChecklistStep[]): readonly Markup[] {
  const byId = new Map(steps.map((step) => [step.id, step]));
  const bodies: FlowPart[][] = [];
  for (const part of flow) {
    const last = bodies[bodies.length - 1];
    if (part.kind === 'stage' || last === undefined || last[0]?.kind === 'stage') bodies.push([part]);
    else last.push(part);
  }
  return bodies.map((parts) => html`<tbody>\n${rowsOf(parts, 0, byId)}</tbody>\n`);
}

type Steps = ReadonlyMap<string, ChecklistStep>;

/** `depth` counts the conditions and repeats around a row. */
function rowsOf(parts: readonly FlowPart[], depth: number, steps: Steps): readonly Markup[] {
  return parts.flatMap((part) => partRows(part, depth, steps));
}

function partRows(part: FlowPart, depth: number, steps: Steps): readonly Markup[] {
  switch (part.kind) {
    case 'step': {
      const step = steps.get(part.step);
      return step === undefined ? [] : stepRows(step, part, depth, steps);
    }
    case 'stage':
      return [stageRow(part, depth), ...rowsOf(part.body, depth, steps)];
    case 'branch':
      return branchRows(part, depth, steps);
    case 'repeat':
      return repeatRows(part, depth, steps);
    case 'stop':
      return [wideRow(stopWords(part.reason), depth)];
  }
}

function stageRow({ label }: Part<'stage'>, depth: number): Markup {
  return depth === 0
    ? html`<tr class="lead"><th scope="rowgroup" colspan="3">${label}</th></tr>\n`
    : leadRow(html`<strong>${label}</strong>`, depth);
}

function stepRows(step: ChecklistStep, part: Part<'step'>, depth: number, steps: Steps): readonly Markup[] {
  const details = detailsOf(step);
  const content = html`<div class="step">${step.cautions.map(caution)}<label><input type="checkbox"><span class="number">${
    step.number
  }</span> <span>${step.text}</span></label>${
    details.length === 0 ? undefined : html`<ul class="details">${details.map((line) => html`<li>${line}</li>`)}</ul>`
  }</div>`;
  const row = html`<tr><td class="do">${nested(content, depth)}</td><td class="clock">${clockWords(
    step.clock,
  )}</td><td class="noted"></td></tr>\n`;
  if (part.meanwhile.length === 0) return [row];
  const during = html`<span class="if">Meanwhile, during the hold of step ${step.number}:</span>`;
  return [row, leadRow(during, depth + 1), ...rowsOf(part.meanwhile, depth + 1, steps)];
}

function branchRows(part: Part<'branch'>, depth: number, steps: Steps): readonly Markup[] {
  const body = (one: BranchCase): readonly Markup[] =>
    one.body.length === 0 ? [wideRow('Nothing to do.', depth + 1)] : rowsOf(one.body, depth + 1, steps);
  const cases = part.cases.flatMap((one, index) => {
    const title = html`<span class="if">${index === 0 ? 'If' : 'Otherwise, if'} ${one.circumstance.text}:</span>`;
    return [leadRow(title, depth + 1), ...body(one)];
  });
  if (part.otherwise === undefined) return cases;
  const { test } = part.otherwise.circumstance;
  const title = html`<span class="if">Otherwise</span> <span class="where">(${test})</span><span class="if">:</span>`;
  return [...cases, leadRow(title, depth + 1), ...body(part.otherwise)];
}

function repeatRows(part: Part<'repeat'>, depth: number, steps: Steps): readonly Markup[] {
  const { until, atMost, orElseStop } = part;
  const goal = until === undefined ? '' : `, until you see: ${until}`;
  const passes = atMost === undefined || atMost > 12 ? [] : Array.from({ length: atMost }, (_, index) => index + 1);
  const head = html`<span class="if">Repeat ${passesWords(atMost)}${goal}</span>${
    passes.length < 2
      ? undefined
      : html` <span class="ways">${passes.map((pass) => html`<label><input type="checkbox">pass ${pass}</label>`)}</span>`
  }`;
  const last = atMost === undefined || atMost === 1 ? 'If not' : `If not after ${atMost} passes`;
  const stop = orElseStop === undefined ? undefined : html`${last}: ${stopWords(orElseStop)}`;
  const end =
    until === undefined ? stop : html`<label><input type="checkbox"><span>Seen: ${until}${spaced(stop)}</span></label>`;
  return [
    leadRow(head, depth + 1),
    ...rowsOf(part.body, depth + 1, steps),
    ...(end === undefined ? [] : [wideRow(end, depth + 1)]),
  ];
}

function detailsOf(step: ChecklistStep): readonly Content[] {
  return [
    ...step.things.map((thing) => `With ${thingWords(thing)}`),
    ...step.observations.flatMap(observation),
    ...step.readings.flatMap(reading),
    ...(step.takes === undefined ? [] : [`Hands on: ${timeWords(step.takes)}`]),
    ...(step.hold === undefined ? [] : [html`<span class="hold">Hold ${holdWords(step.hold)}</span>`]),
    ...step.checks.map(
      ({ text, orElseStop }) =>
        html`<label><input type="checkbox"><span>See: ${text}${ifNot('If not', orElseStop)}</span></label>`,
    ),
    ...step.photos.map((text) => html`<label><input type="checkbox"><span>Photo: ${text}</span></label>`),
    ...step.notes.map((text) => html`<span class="where">${text}</span>`),
  ];
}

function observation(one: ChecklistObservation): readonly Content[] {
  const covered = one.values.filter((value) => value.covered);
  const others = one.values.filter((value) => !value.covered).map((value) => value.label);
  const ways = covered.map(({ label }) => html`<label><input type="checkbox">${label}</label>`);
  return [
    html`${one.label}: <span class="ways">${ways}</span>`,
    ...(others.length === 0 ? [] : [`Not for this checklist: ${others.join(', ')}. Then stop.`]),
    ...made(one),
  ];
}

function reading(one: ChecklistReading): readonly Content[] {
  return [html`${readingWords(one)} <span class="blank"></span>${ifNot('Outside', one.orElseStop)}`, ...made(one)];
}

function made(condition: ChecklistReading | ChecklistObservation): readonly Content[] {
  const words = supposedWords(condition);
  return words === undefined ? [] : [words];
}

function ifNot(when: string, reason: string | undefined): Content {
  return reason === undefined ? undefined : html`. ${when}: ${stopWords(reason)}`;
}

function spaced(content: Markup | undefined): Content {
  return content === undefined ? undefined : html`. ${content}`;
}

export function stopWords(reason: string): Markup {
  return html`<span class="stop"><b>STOP</b> ${reason}</span>`;
}

/** A row that keeps together with the one below it. */
function leadRow(content: Content, depth: number): Markup {
  return html`<tr class="lead open"><td class="do" colspan="3">${nested(content, depth)}</td></tr>\n`;
}

function wideRow(content: Content, depth: number): Markup {
  return html`<tr><td class="do" colspan="3">${nested(content, depth)}</td></tr>\n`;
}

function nested(content: Content, depth: number): Content {
  return depth === 0
    ? html`<div class="row">${content}</div>`
    : html`<div class="in">${nested(content, depth - 1)}</div>`;
}
