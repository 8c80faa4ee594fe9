import type { Value } from './vocabulary.js';

/** A label often explains itself behind a colon; the words before it do, where they tell the values apart. */
export function shortLabel(value: Value, values: readonly Value[]): string {
  const short = ({ label }: Value): string => label.split(': ')[0] ?? label;
  return values.filter((one) => short(one) === short(value)).length > 1 ? value.label : short(value);
}
