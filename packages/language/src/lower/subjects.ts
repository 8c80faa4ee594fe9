import type { Observation, Reading, State } from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import { declared, lowerValues } from './declared.js';
import { lowerEnds } from './quantities.js';
import type { Reader } from './reader.js';

/** What the author wrote can be spoken of only when it has values; without them it is left out, and so is every test on it. */
export function lowerObservation(node: ast.Observation, reader: Reader): Observation | undefined {
  const own = declared(node, reader);
  const values = lowerValues(node.values, reader);
  return own === undefined || values.length === 0 ? undefined : { kind: 'observation', ...own, values };
}

export function lowerState(node: ast.State, reader: Reader): State | undefined {
  const own = declared(node, reader);
  const values = lowerValues(node.values, reader);
  return own === undefined || values.length === 0 ? undefined : { kind: 'state', ...own, values };
}

/** A reading runs from a low to a high end, both of one kind. */
export function lowerReading(node: ast.Reading, reader: Reader): Reading | undefined {
  const own = declared(node, reader);
  const span = node.range;
  if (own === undefined || span === undefined) return undefined;
  const purpose = { words: own.name };
  if (!span.to) {
    reader.complain('A reading runs from one end to the other: `0 mm to 150 mm`.', reader.places.ofNode(span));
    return undefined;
  }
  const ends = lowerEnds(span.low, span.high, purpose, reader);
  if (ends === undefined) return undefined;
  if (ends.low.si > ends.high.si) {
    reader.complain('The low end of a reading comes first.', reader.places.ofNode(span));
    return undefined;
  }
  return { kind: 'reading', ...own, dimension: ends.high.dimension, ...ends };
}
