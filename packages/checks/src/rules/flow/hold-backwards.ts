import { flowIn, type Procedure, type Quantity, type Sheet, type Span, type Step, type Test } from '@quarrel/model';
import type { Draft, SheetRule } from '../../rule.js';
import { partsOf } from '../../tests.js';

/** A hold, or any other span, whose low end lies above its high end. */
export const holdBackwards: SheetRule = {
  name: 'hold-backwards',
  family: 'flow',
  severity: 'error',
  title: 'A span whose low end lies above its high end',
  *look(sheet) {
    for (const procedure of sheet.procedures) yield* inFlow(procedure);
    for (const { what, low, high } of declaredSpans(sheet)) yield* backwards(what, low, high);
  },
};

interface Ends {
  readonly what: string;
  readonly low: Quantity;
  readonly high: Quantity;
}

function* inFlow(procedure: Procedure): Iterable<Draft> {
  let number = 0;
  for (const part of flowIn(procedure.body)) {
    if (part.kind === 'step') {
      for (const { what, low, high } of stepSpans(part)) {
        for (const draft of backwards(what, low, high)) yield { ...draft, procedure, step: number };
      }
      number += 1;
    } else if (part.kind === 'when') {
      for (const draft of part.cases.flatMap((one) => inTest(one.test))) yield { ...draft, procedure };
    }
  }
  const tests = [...procedure.covers, ...procedure.choices.flatMap((choice) => choice.cases.map((one) => one.test))];
  for (const draft of tests.flatMap(inTest)) yield { ...draft, procedure };
}

function stepSpans(step: Step): readonly Ends[] {
  return [
    ...ends('the hands-on time', step.takes),
    ...ends('the hold', step.hold),
    ...step.effects.flatMap((effect) => {
      if (effect.kind === 'with') return ends(`the amount of ${effect.thing}`, effect.amount);
      return effect.kind === 'read' ? ends(`what is accepted of ${effect.condition}`, effect.accept?.span) : [];
    }),
  ];
}

/** The ends of a span that has both. */
function ends(what: string, span: Span | undefined): readonly Ends[] {
  return span?.least === undefined || span.most === undefined ? [] : [{ what, low: span.least, high: span.most }];
}

function inTest(test: Test): readonly Draft[] {
  return partsOf(test).flatMap((part) =>
    part.kind === 'between' ? [...backwards(`the test on ${part.subject}`, part.low, part.high)] : [],
  );
}

/** Spans of what the sheet declares, and of what its procedures use of other sheets; the runner drops what comes twice. */
function declaredSpans(sheet: Sheet): readonly Ends[] {
  const vocabularies = sheet.procedures.map(({ vocabulary }) => vocabulary);
  const tests = [
    ...sheet.acts.flatMap((act) => act.needs.map((need) => need.test)),
    ...sheet.rules.flatMap(({ when, pattern }) => [
      ...(when === undefined ? [] : [when]),
      ...(pattern.kind === 'final' ? [pattern.test] : []),
    ]),
    ...vocabularies.flatMap(({ limits }) =>
      limits.flatMap(({ allowances }) =>
        allowances.flatMap(({ test, when }) => (when === undefined ? [test] : [test, when])),
      ),
    ),
  ];
  return [
    ...vocabularies.flatMap(({ readings }) => readings.map(({ name, low, high }) => ({ what: name, low, high }))),
    ...vocabularies
      .flatMap(({ things }) => things)
      .flatMap(({ name, properties }) =>
        properties.flatMap((property) =>
          property.entries.flatMap(({ value }) => ends(`"${property.name}" of "${name}"`, value)),
        ),
      ),
    ...tests
      .flatMap(partsOf)
      .flatMap((part) =>
        part.kind === 'between' ? [{ what: `the test on ${part.subject}`, low: part.low, high: part.high }] : [],
      ),
  ];
}

function* backwards(what: string, low: Quantity, high: Quantity): Iterable<Draft> {
  if (low.si <= high.si) return;
  yield {
    range: { uri: low.range.uri, start: low.range.start, end: high.range.end },
    message: `${capital(what)} runs backwards: ${low.text} is more than ${high.text}.`,
    because: 'Nothing lies between the two, so it can never be met.',
    advice: 'Write the lower value first.',
    mends: () => [
      {
        title: `Write ${high.text} to ${low.text}`,
        edits: [
          { range: low.range, text: high.text },
          { range: high.range, text: low.text },
        ],
      },
    ],
  };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
