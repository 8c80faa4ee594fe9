import { assumedLines, type Press, testInWords } from '@quarrel/checks';
import type { Procedure, Quantity, Thing } from '@quarrel/model';
import type { AssumptionShown } from './holds.js';

const properties = ['gap', 'length', 'pressure'] as const;

/** What the estimates of some steps take for granted: the lines of sheets that they use, and pressures from datasheets. */
export function assumptionsBehind(procedure: Procedure, presses: readonly Press[]): readonly AssumptionShown[] {
  const fills = presses.flatMap((press) => press.fills.map(({ fill }) => fill));
  const assumed = properties.flatMap((property) => {
    const used = new Set<Quantity>(fills.map((fill) => fill[property]));
    return assumedLines(procedure, 'filling', property).flatMap((line): readonly AssumptionShown[] => {
      if (line.amount.kind !== 'value') return [];
      const { least, most } = line.amount.span;
      const amount = [least, most].find((one) => one !== undefined && used.has(one));
      if (amount === undefined) return [];
      const { when, because, source, range } = line;
      return [
        {
          property,
          text: amount.text,
          ...(when === undefined ? {} : { circumstance: testInWords(when) }),
          ...(because === undefined ? {} : { because }),
          ...(source === undefined ? {} : { source }),
          range,
        },
      ];
    });
  });
  const pressures = new Set(fills.map(({ pressure }) => pressure));
  return [...assumed, ...procedure.vocabulary.things.flatMap((thing) => pressureOf(thing, pressures))];
}

/** The line of a datasheet that gives one of the pressures. */
function pressureOf({ label, properties }: Thing, pressures: ReadonlySet<Quantity>): readonly AssumptionShown[] {
  return properties.flatMap(({ name, entries, range }) =>
    entries.flatMap(({ value: { least, most } }) => {
      const amount = [least, most].find((one) => one !== undefined && pressures.has(one));
      return amount === undefined ? [] : [{ property: name, text: amount.text, source: label, range }];
    }),
  );
}
