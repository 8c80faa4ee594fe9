import type { Effect, Quantity, Reading, Span, Step, Test } from '@quarrel/model';
import type { Edit, Mend } from '../finding.js';
import type { Work } from '../rule.js';
import { isSomewhere } from '../work.js';
import { leastHeld } from './hold.js';
import { placeBehind, stepWritten } from './parts.js';
import { insertAt, insertBefore, newLine, quoted } from './text.js';

/** A step that is to be held longer where the glass is cold. */
export interface Split {
  readonly step: Step;
  readonly number: number;
  /** Where it is too cold. */
  readonly turn: Test;
  /** How long it is to be held there at the least. */
  readonly least: Quantity;
  readonly reading: Reading;
}

/**
 * The step twice, by the temperature at which its hold turns too short: with a longer hold below it, and as it is. None where
 * the temperature is not known there, and where a copy would lose something of the step.
 */
export function splitByTemperature({ step, number, turn, least, reading }: Split, work: Work): readonly Mend[] {
  if (turn.kind !== 'compare' || !isSimple(step) || !isKnown(reading, number, work)) return [];
  const temperature = turn.quantity.text;
  const edits = around(step, `when ${reading.name} below ${temperature} {`, copyOf(step, least), work);
  return edits === undefined ? [] : [{ title: `Hold ${least.text} below ${temperature} only`, edits }];
}

/** A step that can be written again from what it does. */
function isSimple(step: Step): boolean {
  return (
    step.documentation === undefined &&
    step.waivers.length === 0 &&
    step.effects.every(({ kind }) => kind === 'act' || kind === 'with' || kind === 'check')
  );
}

function isKnown({ name }: Reading, number: number, work: Work): boolean {
  const { steps, situations } = work.run;
  const before = steps[number]?.before;
  return before !== undefined && !isSomewhere(work, situations.store.and(before.reached, before.mayNotKnow(name)));
}

/** Without its name, which stays with the step. */
function copyOf(step: Step, least: Quantity) {
  return stepWritten(`${step.text}, cold`, [
    ...step.cautions.map((one) => `caution ${one.kind === 'hazard' ? one.hazard : quoted(one.text)}`),
    ...step.effects.flatMap(effectWritten),
    ...(step.takes === undefined ? [] : [`takes ${spanWritten(step.takes)}`]),
    `hold ${leastHeld(step, least)}`,
    ...step.photos.map((photo) => `photo ${quoted(photo)}`),
    ...step.notes.map((note) => `note ${quoted(note)}`),
  ]);
}

function effectWritten(effect: Effect): readonly string[] {
  switch (effect.kind) {
    case 'act':
      return [`do ${effect.act}`];
    case 'with':
      return [`with ${effect.thing}${effect.amount === undefined ? '' : ` amount ${spanWritten(effect.amount)}`}`];
    case 'check': {
      const { text, confirms, orElseStop } = effect;
      const seen = confirms === undefined ? '' : ` confirms ${confirms.state} ${confirms.value}`;
      return [`check ${quoted(text)}${seen}${orElseStop === undefined ? '' : ` or else stop ${quoted(orElseStop)}`}`];
    }
    default:
      return [];
  }
}

function spanWritten({ least, most }: Span): string {
  if (least === undefined) return `at most ${most?.text}`;
  if (most === undefined) return `at least ${least.text}`;
  return least.si === most.si ? least.text : `${least.text} to ${most.text}`;
}

/** Puts a step that has lines of its own into the second block of a new `when`; nothing where it shares its line. */
function around(step: Step, head: string, first: ReturnType<typeof copyOf>, work: Work): readonly Edit[] | undefined {
  const { whole, cut } = step;
  const behind = placeBehind(step, work.layout);
  if (whole === undefined || cut === undefined || behind === undefined || behind.isInline) return undefined;
  const { column, line } = whole.start;
  const [outer, inner] = [newLine(column), newLine(column + 2)];
  const further = Array.from({ length: whole.end.line - line }, (_, index) =>
    insertAt(whole, { line: line + 1 + index, column: 0 }, '  '),
  );
  return [
    insertBefore(whole, `${head}${inner}${first(column + 2, false)}${outer}} otherwise {${inner}`),
    ...further,
    insertAt(whole, behind.at, `${outer}}`),
  ];
}
