import { ast, isSheetDocument, type SheetDocument, stepsIn } from '@quarrel/language';
import { type Unit, unitNamed } from '@quarrel/model';
import { AstUtils, GrammarUtils, type LangiumDocument } from 'langium';
import { type InlayHint, InlayHintKind, type InlayHintParams, type Position, type Range } from 'vscode-languageserver';
import { contains, positionOf } from '../check/places.js';
import type { LanguageServices } from '../services.js';
import { amountOf, converted } from './hover/quantity.js';
import { startWords, thingsInHand } from './hover/words-of-runs.js';
import { type Known, knownIn } from './runs.js';
import { settingsOf, type UnitSystem } from './settings.js';

/** What an editor writes between the words of a sheet: starts of steps, other units, what choices give. */
export async function inlayHints(
  document: LangiumDocument,
  { range }: InlayHintParams,
  services: LanguageServices,
): Promise<InlayHint[]> {
  if (!isSheetDocument(document)) return [];
  const { inlayHints: wanted, units } = await settingsOf(services.shared);
  const procedures = wanted.clock || wanted.choices ? knownIn(document, services) : [];
  return [
    ...(wanted.clock ? procedures.flatMap((known) => clockHints(known, document, range)) : []),
    ...(wanted.choices ? procedures.flatMap(choiceHints) : []),
    ...(wanted.units ? unitHints(document, units, range) : []),
  ].filter(({ position }) => contains(range, position));
}

/** Behind the line on which the text of a step ends: when it starts on the clock. */
function clockHints({ run, steps, numbering }: Known, document: SheetDocument, range: Range): InlayHint[] {
  if (run === undefined) return [];
  const ends = textEnds(document);
  const lines = new Map<number, number>();
  for (const { line } of ends.values()) lines.set(line, (lines.get(line) ?? 0) + 1);
  return steps.flatMap((step): InlayHint[] => {
    const end = step.whole === undefined ? undefined : ends.get(placeOf(positionOf(step.whole.start)));
    if (end === undefined || end.line < range.start.line || end.line > range.end.line) return [];
    const record = run.steps[numbering.of(step)];
    const label = record === undefined ? undefined : startWords(record.before);
    if (label === undefined) return [];
    // Of two steps on one line each has its hint behind its own text.
    const position = lines.get(end.line) === 1 ? lineEnd(document, end.line) : end;
    return [{ position, label, paddingLeft: true, tooltip: clockTooltip }];
  });
}

const clockTooltip =
  'The earliest and the latest start of this step, from the start of the job, over all situations that reach it.';

/** Where the text of each step ends, by the place where the step begins. */
function textEnds(document: SheetDocument): ReadonlyMap<string, Position> {
  const ends = new Map<string, Position>();
  for (const procedure of document.parseResult.value.declarations.filter(ast.isProcedure)) {
    for (const step of stepsIn(procedure)) {
      const text = step.$cstNode === undefined ? undefined : GrammarUtils.findNodeForProperty(step.$cstNode, 'text');
      if (step.$cstNode !== undefined && text !== undefined)
        ends.set(placeOf(step.$cstNode.range.start), text.range.end);
    }
  }
  return ends;
}

function placeOf({ line, character }: Position): string {
  return `${line}:${character}`;
}

function lineEnd({ textDocument }: SheetDocument, line: number): Position {
  const text = textDocument.getText({ start: { line, character: 0 }, end: { line: line + 1, character: 0 } });
  return { line, character: text.trimEnd().length };
}

/** Behind each choice that a step takes: what it gives there. */
function choiceHints({ procedure, run, steps, numbering }: Known): InlayHint[] {
  if (run === undefined) return [];
  return steps.flatMap((step) => {
    const record = run.steps[numbering.of(step)];
    return (record?.things ?? []).flatMap((taken): InlayHint[] => {
      const effect = step.effects[taken.effect];
      if (effect?.kind !== 'with' || !effect.isChoice || taken.reached === run.situations.store.nowhere) return [];
      const ways = thingsInHand(taken, procedure, run);
      const names = ways.map(({ name }) => name ?? 'nothing');
      return [
        {
          position: positionOf(effect.range.end),
          label: names.join(' or '),
          paddingLeft: true,
          tooltip: {
            kind: 'markdown',
            value: ways.map(({ name, where }) => `- \`${name ?? 'nothing'}\` ${where}`).join('\n'),
          },
        },
      ];
    });
  });
}

/** Behind each temperature: what it is on the other scale. */
function unitHints(document: SheetDocument, system: UnitSystem, range: Range): InlayHint[] {
  const hints: InlayHint[] = [];
  for (const node of AstUtils.streamAst(document.parseResult.value, { range })) {
    const end = node.$cstNode?.range.end;
    if (!ast.isQuantity(node) || end === undefined) continue;
    const amount = amountOf(node);
    const other = amount?.dimension === 'temperature' ? otherScale(amount.unit, system) : undefined;
    if (amount === undefined || other === undefined) continue;
    const { text, isRounded } = converted(amount.si, other);
    hints.push({
      position: end,
      label: `${isRounded ? '≈' : '='} ${text}`,
      paddingLeft: true,
      kind: InlayHintKind.Type,
    });
  }
  return hints;
}

function otherScale(written: string, system: UnitSystem): Unit | undefined {
  const isImperial = written === '°F';
  if (system === 'metric' && !isImperial) return undefined;
  if (system === 'imperial' && isImperial) return undefined;
  return unitNamed(isImperial ? '°C' : '°F');
}
