import type { ByScenario } from '@quarrel/analysis';
import type { Assumed, Procedure, Quantity, Reading, Test } from '@quarrel/model';
import type { Ran } from '../rule.js';
import { isUncertain } from '../tests.js';

/** The acts during which a topic of assumptions happens. */
export function actsDuring({ vocabulary }: Procedure, topic: string): ReadonlySet<string> {
  return new Set(vocabulary.assumptions.filter((one) => one.topic === topic).flatMap(({ acts }) => acts));
}

/**
 * What is assumed of one property, in the order that counts: of several lines that hold in a situation the last. Lines that
 * never count, as a later one holds everywhere, are left out.
 */
export function assumedLines({ vocabulary }: Procedure, topic: string, property: string): readonly Assumed[] {
  const lines = vocabulary.assumptions
    .filter((one) => one.topic === topic)
    .flatMap((one) => one.lines)
    .filter((line) => line.property === property && !(line.when !== undefined && isUncertain(line.when)));
  return lines.slice(Math.max(0, lines.map(({ when }) => when).lastIndexOf(undefined)));
}

/** Whether two lines surely never count together: they ask for different values of one condition. */
export function excludeEachOther({ when: one }: Assumed, { when: other }: Assumed): boolean {
  if (one?.kind !== 'is' || other?.kind !== 'is' || one.negated || other.negated) return false;
  return one.subject === other.subject && !one.values.some((value) => other.values.includes(value));
}

/** The tests that tell where lines hold. */
export function testsOfLines(lines: readonly Assumed[]): readonly Test[] {
  return lines.flatMap(({ when }) => when ?? []);
}

/** Which line counts, situation by situation, by its index; nothing where none does. */
export function lineBySituation(lines: readonly Assumed[], { run }: Ran): ByScenario<number | undefined> {
  const { situations } = run;
  return lines.reduce<ByScenario<number | undefined>>(
    (before, line, index) =>
      situations.store.choose(
        line.when === undefined ? situations.store.everywhere : situations.region(line.when).holds,
        situations.store.constant<number | undefined>(index),
        before,
      ),
    situations.store.constant<number | undefined>(undefined),
  );
}

/** The value of a line; of a span its least. */
export function amountOf({ amount }: Assumed): Quantity | undefined {
  return amount.kind === 'value' ? (amount.span.least ?? amount.span.most) : undefined;
}

/** The reading that tells the temperature of the glass, where a sheet says which one does. */
export function glassReading(procedure: Procedure): Reading | undefined {
  const names = assumedLines(procedure, 'glass', 'temperature').flatMap(({ amount }) =>
    amount.kind === 'reading' ? [amount.name] : [],
  );
  return procedure.vocabulary.readings.find(({ name }) => name === names.at(-1));
}
