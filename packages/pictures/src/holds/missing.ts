import { type Fill, type Press, silencesOf, timeToFill, toldOf } from '@quarrel/checks';
import type { Procedure } from '@quarrel/model';
import type { Nothing } from '../picked.js';
import type { Missing } from './holds.js';

const viscosity = 'viscosity 35 mPa·s at 20 °C, 90 mPa·s at 5 °C';

/** Why nothing can be estimated of a procedure, or of some of its steps, and which lines would change that. */
export function noEstimate(procedure: Procedure, presses: readonly Press[] = []): Nothing {
  const silences = silencesOf(procedure).filter(({ rules }) => rules.includes('hold-shorter-than-fill'));
  const missing = presses.some(({ fills }) => fills.length > 0) ? missingFor(presses) : silences;
  if (missing.length > 0) return { kind: 'nothing', reason: missing.map(inWords).join(' ') };
  const { label } = procedure;
  if (presses.length === 0) return { kind: 'nothing', reason: `No step of “${label}” presses resin in.` };
  return { kind: 'nothing', reason: inWords(nothingInHand) };
}

const nothingInHand: Missing = {
  message: 'Where resin is pressed in, no resin is in hand, or nobody says under which pressure.',
  wakes: 'with RESIN, and assume filling { pressure 200 kPa }',
};

function inWords({ message, wakes }: Missing): string {
  return `${message} This would tell: ${wakes}`;
}

/** The fills of which nothing can be told, each resin once. */
export function missingFor(presses: readonly Press[]): readonly Missing[] {
  const fills = presses.flatMap((press) => press.fills.map(({ fill }) => fill));
  const missing = fills.flatMap(missingOf);
  return missing.filter(({ message }, index) => missing.findIndex((other) => other.message === message) === index);
}

function missingOf(fill: Fill): readonly Missing[] {
  const { name, range } = fill.resin;
  const told = toldOf(fill);
  if (told !== undefined) {
    if (timeToFill(fill, told.coldest)?.kind === 'value') return [];
    const { gap, length, pressure } = fill;
    const message = `A gap of ${gap.text}, a leg of ${length.text} and ${pressure.text} are outside of what can be estimated.`;
    return [{ message, wakes: 'assume filling { gap 3 µm; length 20 mm; pressure 200 kPa }' }];
  }
  const message =
    timeToFill(fill, 0) === undefined
      ? `The datasheet of "${name}" has no line "viscosity".`
      : `The viscosities on the datasheet of "${name}" make no curve: it has to fall from each temperature to the next warmer.`;
  return [{ message, wakes: viscosity, range }];
}
