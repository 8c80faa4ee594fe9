import { fromSi, type Quantity, type Span, unitNamed } from '@quarrel/model';
import type { ChecklistQuantity, QuantityRange, TimeRange } from '../checklist.js';

/** A span of times in seconds. */
export function timeRange(span: Span): TimeRange {
  return rangeOf(span.least?.si, span.most?.si);
}

/** From `least` to `most`; an end that is missing or infinite is open. */
export function rangeOf(least: number | undefined, most: number | undefined): TimeRange {
  return {
    ...(least === undefined ? {} : { least }),
    ...(most === undefined || !Number.isFinite(most) ? {} : { most }),
  };
}

/** A span of anything but time, for people and machines. */
export function quantityRange(span: Span): QuantityRange {
  return withText(span.least && asWritten(span.least), span.most && asWritten(span.most));
}

/** A range of SI values in one unit; an infinite end is open. */
export function rangeInUnit(least: number, most: number, unit: string): QuantityRange {
  return withText(inUnit(least, unit), Number.isFinite(most) ? inUnit(most, unit) : undefined);
}

/** In the author's words, but for what is counted: `1 drop`, `2 drops`. */
function asWritten(quantity: Quantity): ChecklistQuantity {
  const inItsUnit = inUnit(quantity.si, quantity.unit);
  return singular(quantity.unit) === quantity.unit ? { ...inItsUnit, text: quantity.text } : inItsUnit;
}

function inUnit(si: number, unitName: string): ChecklistQuantity {
  const unit = unitNamed(unitName);
  const value = unit === undefined ? si : fromSi(si, unit);
  return { value, unit: unitName, text: `${value} ${value === 1 ? singular(unitName) : unitName}` };
}

/** What is counted has a plural; other units have none. */
function singular(unitName: string): string {
  return unitName === 'drops' || unitName === 'pieces' ? unitName.slice(0, -1) : unitName;
}

function withText(least: ChecklistQuantity | undefined, most: ChecklistQuantity | undefined): QuantityRange {
  if (least !== undefined && most !== undefined) {
    const text =
      least.value === most.value && least.unit === most.unit
        ? most.text
        : `${least.unit === most.unit ? least.value : least.text} to ${most.text}`;
    return { least, most, text };
  }
  if (least !== undefined) return { least, text: `at least ${least.text}` };
  if (most !== undefined) return { most, text: `at most ${most.text}` };
  return { text: 'any amount' };
}
