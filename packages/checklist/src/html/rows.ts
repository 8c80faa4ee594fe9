import type { BranchCase, ChecklistObservation, ChecklistReading, ChecklistStep, FlowPart } from '../checklist.js';
import { clockWords, elsewhereWords, holdWords, passesWords, readingWords, thingWords, timeWords } from '../wording.js';
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
  return bodies.map((parts) => html`<tbody>\n${rowsOf(parts, [], byId)}</tbody>\n`);
}

type Steps = ReadonlyMap<string, ChecklistStep>;

/** What stands around a row, outermost first; each is drawn as a line down its left side. */
type Around = readonly ('case' | 'repeated' | 'during')[];

function rowsOf(parts: readonly FlowPart[], around: Around, steps: Steps): readonly Markup[] {
  return parts.flatMap((part) => partRows(part, around, steps));
}

function partRows(part: FlowPart, around: Around, steps: Steps): readonly Markup[] {
  switch (part.kind) {
    case 'step': {
      const step = steps.get(part.step);
      return step === undefined ? [] : stepRows(step, part, around, steps);
    }
    case 'stage':
      return [stageRow(part, around), ...rowsOf(part.body, around, steps)];
    case 'branch':
      return branchRows(part, around, steps);
    case 'repeat':
      return repeatRows(part, around, steps);
    case 'stop':
      return [wideRow(stopWords(part.reason), around)];
  }
}

function stageRow({ label }: Part<'stage'>, around: Around): Markup {
  return around.length === 0
    ? html`<tr class="lead"><th scope="rowgroup" colspan="3">${label}</th></tr>\n`
    : leadRow(html`<strong>${label}</strong>`, around);
}

/** Cautions in a row of their own, so that they are read first and the clock stands beside the instruction. */
function stepRows(step: ChecklistStep, part: Part<'step'>, around: Around, steps: Steps): readonly Markup[] {
  const details = detailsOf(step).map((line) => html`<li>${line}</li>`);
  const content = html`<label class="instruction"><input type="checkbox"><span class="number">${step.number}</span> <span>${
    step.text
  }</span></label>${details.length === 0 ? undefined : html`<ul class="details">${details}</ul>`}`;
  const rows = [
    ...(step.cautions.length === 0 ? [] : [leadRow(step.cautions.map(caution), around)]),
    html`<tr><td class="do">${nested(content, around)}</td><td class="clock">${clockWords(
      step.clock,
    )}</td><td class="noted"></td></tr>\n`,
  ];
  if (part.meanwhile.length === 0) return rows;
  const inside: Around = [...around, 'during'];
  const title = html`<span class="if">Meanwhile, during the hold of step ${step.number}:</span>`;
  return [...rows, openingRow(title, inside), ...rowsOf(part.meanwhile, inside, steps)];
}

function branchRows(part: Part<'branch'>, around: Around, steps: Steps): readonly Markup[] {
  const inside: Around = [...around, 'case'];
  const rows = (title: Content, { body }: BranchCase): readonly Markup[] => [
    openingRow(title, inside),
    ...(body.length === 0 ? [wideRow('Nothing to do.', inside)] : rowsOf(body, inside, steps)),
  ];
  const cases = part.cases.flatMap((one, index) =>
    rows(html`<span class="if">${index === 0 ? 'If' : 'Otherwise, if'} ${one.circumstance.text}:</span>`, one),
  );
  if (part.otherwise === undefined) return cases;
  const { text } = part.otherwise.circumstance;
  const title = html`<span class="if">Otherwise</span> <span class="where">(${text})</span><span class="if">:</span>`;
  return [...cases, ...rows(title, part.otherwise)];
}

function repeatRows(part: Part<'repeat'>, around: Around, steps: Steps): readonly Markup[] {
  const { until, atMost, orElseStop } = part;
  const inside: Around = [...around, 'repeated'];
  const goal = until === undefined ? '' : `, until you see: ${until}`;
  const passes = atMost === undefined || atMost > 12 ? [] : Array.from({ length: atMost }, (_, index) => index + 1);
  const boxes = passes.map((pass) => html`<label><input type="checkbox">pass ${pass}</label>`);
  const head = html`<span class="if">Repeat ${passesWords(atMost)}${goal}</span>${
    boxes.length < 2 ? undefined : html` <span class="ways">${boxes}</span>`
  }`;
  const last = atMost === undefined || atMost === 1 ? 'If not' : `If not after ${atMost} passes`;
  const stop = orElseStop === undefined ? undefined : html`${last}: ${stopWords(orElseStop)}`;
  const end =
    until === undefined
      ? stop
      : html`<label><input type="checkbox"><span>Seen: ${until}${stop === undefined ? undefined : html`. ${stop}`}</span></label>`;
  return [
    openingRow(head, inside),
    ...rowsOf(part.body, inside, steps),
    ...(end === undefined ? [] : [wideRow(end, inside)]),
  ];
}

function detailsOf(step: ChecklistStep): readonly Content[] {
  const short = [
    ...(step.hold === undefined ? [] : [html`<span class="hold">Hold ${holdWords(step.hold)}</span>`]),
    ...(step.takes === undefined ? [] : [html`<span>Hands on ${timeWords(step.takes)}</span>`]),
    ...step.things.map((thing) => html`<span>With ${thingWords(thing)}</span>`),
  ];
  return [
    ...(short.length === 0 ? [] : [html`<span class="ways">${short}</span>`]),
    ...step.observations.map(observation),
    ...step.readings.map(reading),
    ...step.checks.map(
      ({ text, orElseStop }) =>
        html`<label><input type="checkbox"><span>See: ${text}${ifNot('If not', orElseStop)}</span></label>`,
    ),
    ...step.photos.map((text) => html`<label><input type="checkbox"><span>Photo: ${text}</span></label>`),
    ...step.notes.map((text) => html`<span class="where">${text}</span>`),
  ];
}

function observation(one: ChecklistObservation): Content {
  const covered = one.values.filter((value) => value.covered);
  const ways = covered.map(({ label }) => html`<label><input type="checkbox">${label}</label>`);
  return html`<span class="ways"><span>${one.label}:</span>${ways}${given(elsewhereWords(one))}</span>`;
}

function reading(one: ChecklistReading): Content {
  return html`${readingWords(one)} <span class="blank"></span>${ifNot('Outside', one.orElseStop)} ${given(elsewhereWords(one))}`;
}

function given(words: string | undefined): Content {
  return words === undefined ? undefined : html`<span>${words}</span>`;
}

function ifNot(when: string, reason: string | undefined): Content {
  return reason === undefined ? undefined : html`. ${when}: ${stopWords(reason)}`;
}

export function stopWords(reason: string): Markup {
  return html`<span class="stop"><b>STOP</b> ${reason}</span>`;
}

/** A row that keeps together with the one below it. */
function leadRow(content: Content, around: Around): Markup {
  return html`<tr class="lead open"><td class="do" colspan="3">${nested(content, around)}</td></tr>\n`;
}

/** The first row inside the innermost of `around`: a condition, a repeat, what is done meanwhile. */
function openingRow(content: Content, around: Around): Markup {
  return html`<tr class="lead open opening"><td class="do" colspan="3">${nested(content, around)}</td></tr>\n`;
}

function wideRow(content: Content, around: Around): Markup {
  return html`<tr><td class="do" colspan="3">${nested(content, around)}</td></tr>\n`;
}

function nested(content: Content, around: Around): Markup {
  return around.reduceRight(
    (inner, kind) => html`<div class="${kind}">${inner}</div>`,
    html`<div class="row">${content}</div>`,
  );
}
