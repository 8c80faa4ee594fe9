import type { Region, Run } from '@quarrel/analysis';
import { testInWords } from '@quarrel/checks';
import { type ast, propertyShapes } from '@quarrel/language';
import type { Choice, PropertyEntry, Step, Thing, ThingKind } from '@quarrel/model';
import type { Known } from '../runs.js';
import { heading, stepsWords } from './declarations.js';
import { block, code, list, page, paragraphs, plain } from './markdown.js';
import { spanWords } from './quantity.js';
import { whereWords } from './words-of-runs.js';

/** A thing with its datasheet, and when a choice takes it. */
export function thingHover(thing: Thing, near: readonly Known[]): string {
  const chosen = near.flatMap(({ procedure, run }) =>
    procedure.choices.flatMap((choice) => {
      const when = takenWhen(choice, thing.name, run);
      return when === undefined ? [] : [`${code(choice.name)} takes it ${when}`];
    }),
  );
  const inHand = ({ effects }: Step): boolean =>
    effects.some((effect) => effect.kind === 'with' && !effect.isChoice && effect.thing === thing.name);
  const isTaken = near.some(({ steps }) => steps.some(inHand));
  return page([
    heading(thing.label, thing.kind, thing.name),
    datasheet(thing),
    ...paragraphs(thing.documentation),
    list('Chosen', chosen),
    isTaken ? stepsWords(near, inHand, 'In hand in', '') : undefined,
  ]);
}

function datasheet({ kind, properties }: Thing): string | undefined {
  if (properties.length === 0) return undefined;
  const rows = properties.map(
    ({ name, entries }) =>
      `| ${name} | ${plain(entries.map((entry) => entryWords(entry, jointOf(kind, name))).join(', '))} |`,
  );
  return ['| datasheet | |', '|---|---|', ...rows].join('\n');
}

function jointOf(kind: ThingKind, property: string): string {
  const shapes = propertyShapes[kind];
  return (Object.hasOwn(shapes, property) ? shapes[property]?.joint?.word : undefined) ?? 'at';
}

function entryWords({ value, at }: PropertyEntry, joint: string): string {
  return at === undefined ? spanWords(value) : `${spanWords(value)} ${joint} ${at.text}`;
}

/** A line of a datasheet: how it is written. */
export function propertyHover({ property, $container }: ast.Property): string | undefined {
  const shapes = propertyShapes[$container.kind];
  const shape = property !== undefined && Object.hasOwn(shapes, property) ? shapes[property] : undefined;
  return shape === undefined
    ? undefined
    : page([
        `${code(property)} of ${/^[aeiou]/.test($container.kind) ? 'an' : 'a'} ${$container.kind}`,
        block(shape.example),
      ]);
}

/** A choice: which thing it gives in which of the situations covered. */
export function choiceHover(choice: Choice, { run, procedure }: Known): string {
  const label = (name: string): string => procedure.vocabulary.things.find((one) => one.name === name)?.label ?? name;
  const names = [
    ...new Set([
      ...choice.cases.map(({ thing }) => thing),
      ...(choice.otherwise === undefined ? [] : [choice.otherwise.name]),
    ]),
  ];
  const lines = names.map((name) =>
    `${plain(label(name))} (${code(name)}) ${takenWhen(choice, name, run) ?? ''}`.trimEnd(),
  );
  const gap = run === undefined ? undefined : gapOf(choice, run);
  return page([
    heading(choice.label, `choice of a ${choice.thingKind}`, choice.name),
    lines.map((line) => `- ${line}`).join('\n'),
    gap === undefined ? undefined : `Gives nothing ${gap}.`,
    ...paragraphs(choice.documentation),
  ]);
}

/** When a choice takes a thing, over the situations covered; nothing where it never names the thing. */
export function takenWhen(choice: Choice, thing: string, run: Run | undefined): string | undefined {
  const isNamed = choice.otherwise?.name === thing || choice.cases.some((one) => one.thing === thing);
  if (!isNamed) return undefined;
  if (run === undefined) {
    const tests = choice.cases.filter((one) => one.thing === thing).map(({ test }) => code(testInWords(test)));
    return tests.length === 0 ? 'otherwise' : `when ${tests.join(' or ')}`;
  }
  const { cases, rest } = sharesOf(choice, run);
  const own = cases.filter((_, at) => choice.cases[at]?.thing === thing);
  const all = choice.otherwise?.name === thing ? [...own, rest] : own;
  const { store } = run.situations;
  return whereWords(
    all.reduce((joined, one) => store.or(joined, one), store.nowhere),
    run.covered,
    run,
  );
}

/** Over the situations covered: where each case is taken, as the cases above it leave the matter open; and what is left. */
function sharesOf(choice: Choice, run: Run): { readonly cases: readonly Region[]; readonly rest: Region } {
  const { store } = run.situations;
  let rest = run.covered;
  const cases = choice.cases.map(({ test }) => {
    const { holds } = run.situations.region(test);
    const own = store.and(rest, holds);
    rest = store.without(rest, holds);
    return own;
  });
  return { cases, rest };
}

/** One case of a choice: where it is the one that is taken. */
export function offerHover(choice: Choice, index: number | 'otherwise', { run }: Known): string | undefined {
  if (run === undefined) return undefined;
  const { cases, rest } = sharesOf(choice, run);
  const region = index === 'otherwise' ? rest : cases[index];
  if (region === undefined) return undefined;
  if (region === run.situations.store.nowhere) return '**Never** taken in a situation covered.';
  return `Taken ${whereWords(region, run.covered, run)}`;
}

function gapOf(choice: Choice, run: Run): string | undefined {
  if (choice.otherwise !== undefined) return undefined;
  const { rest } = sharesOf(choice, run);
  return rest === run.situations.store.nowhere ? undefined : whereWords(rest, run.covered, run);
}
