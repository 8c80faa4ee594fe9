import type { Caution, Effect, Step, Waiver } from '@quarrel/model';
import * as ast from '../generated/ast.js';
import { lowerStateValue } from './acts.js';
import { lowerBlock, type StepIds } from './flow.js';
import { documentationOf } from './places.js';
import { aTime, lowerSpan, type Purpose } from './quantities.js';
import { optional, type Reader, resolved } from './reader.js';

const anAmount: Purpose = { words: 'an amount', dimensions: ['drops', 'volume', 'pieces', 'length'] };

export function lowerStep(node: ast.Step, ids: StepIds, reader: Reader): Step {
  const { clauses } = node;
  const holdClause = only(clauses, 'Hold', reader);
  const hold = lowerSpan(holdClause?.span, aTime('a hold'), reader);
  return {
    kind: 'step',
    id: ids.of(node),
    text: node.text ?? node.name ?? '',
    ...optional('documentation', documentationOf(node)),
    effects: effectsOf(clauses, ids, reader),
    ...optional('takes', lowerSpan(only(clauses, 'Takes', reader)?.span, aTime('hands-on time'), reader)),
    ...optional('hold', hold),
    ...(holdClause !== undefined && hold === undefined ? { unreadHold: reader.places.ofNode(holdClause) } : {}),
    cautions: clausesOf(clauses, 'Caution').flatMap((caution) => lowerCaution(caution, reader) ?? []),
    notes: clausesOf(clauses, 'Note').flatMap(({ text }) => text ?? []),
    photos: clausesOf(clauses, 'Photo').flatMap(({ text }) => text ?? []),
    waivers: clausesOf(clauses, 'Waive').flatMap((waive) => lowerWaiver(waive, reader) ?? []),
    range: reader.places.ofName(node),
    whole: reader.places.ofNode(node),
    ...optional('cut', reader.places.cut(node)),
    ...optional('clauses', reader.places.inside(node)),
    ...optional('closing', reader.places.closing(node)),
  };
}

type OfType<Type> = Extract<ast.StepClause, { readonly $type: Type }>;

/** The clauses of one kind. Told by their type alone: asking Langium for every clause of every kind would take far longer. */
function clausesOf<Type extends ast.StepClause['$type']>(
  clauses: readonly ast.StepClause[],
  type: Type,
): readonly OfType<Type>[] {
  return clauses.filter((clause): clause is OfType<Type> => clause.$type === type);
}

/** The only clause of its kind; a second one is reported. */
function only<Type extends ast.StepClause['$type']>(
  clauses: readonly ast.StepClause[],
  type: Type,
  reader: Reader,
): OfType<Type> | undefined {
  const [first, second] = clausesOf(clauses, type);
  if (second !== undefined) {
    const word = second.$type.toLowerCase();
    reader.complain(
      `A step has one \`${word}\`; make two steps of it, or one span.`,
      reader.places.ofFirstWord(second),
    );
  }
  return first;
}

/**
 * What happens in a step, in the order written, but `meanwhile` behind the last act, observation, reading and thing in hand: it
 * is done during the hold, and the hold comes after all of them.
 */
function effectsOf(clauses: readonly ast.StepClause[], ids: StepIds, reader: Reader): readonly Effect[] {
  const effects: Effect[] = [];
  for (const clause of clauses) {
    if (ast.isAccept(clause)) acceptLast(clause, effects, reader);
    else effects.push(...lowerEffect(clause, ids, reader));
  }
  const last = effects.findLastIndex(({ kind }) => kind !== 'meanwhile' && kind !== 'check');
  const before = effects.slice(0, last + 1);
  const isMeanwhile = ({ kind }: Effect): boolean => kind === 'meanwhile';
  return [
    ...before.filter((effect) => !isMeanwhile(effect)),
    ...before.filter(isMeanwhile),
    ...effects.slice(last + 1),
  ];
}

function lowerEffect(clause: ast.StepClause, ids: StepIds, reader: Reader): Effect[] {
  const { places } = reader;
  switch (clause.$type) {
    case 'Do':
      return clause.acts.flatMap((reference): Effect[] => {
        const act = resolved(reference);
        return act === undefined ? [] : [{ kind: 'act', act, range: places.of(reference.$refNode) }];
      });
    case 'Observe':
      return clause.observations.flatMap((reference): Effect[] => {
        const condition = resolved(reference);
        return condition === undefined ? [] : [{ kind: 'observe', condition, range: places.of(reference.$refNode) }];
      });
    case 'Read': {
      const condition = resolved(clause.reading);
      return condition === undefined ? [] : [{ kind: 'read', condition, range: places.of(clause.reading.$refNode) }];
    }
    case 'With': {
      const thing = clause.thing?.ref;
      const amount = lowerSpan(clause.amount, anAmount, reader);
      if (thing?.name === undefined) return [];
      const isChoice = ast.isChoose(thing);
      const range = places.of(clause.thing.$refNode);
      return [{ kind: 'with', thing: thing.name, isChoice, ...optional('amount', amount), range }];
    }
    case 'Check': {
      if (clause.text === undefined) return [];
      const confirms = lowerStateValue(clause.confirms, reader);
      const orElseStop = clause.orElse?.reason;
      const { text } = clause;
      const range = places.ofNode(clause);
      return [{ kind: 'check', text, ...optional('confirms', confirms), ...optional('orElseStop', orElseStop), range }];
    }
    case 'Meanwhile':
      return [{ kind: 'meanwhile', body: lowerBlock(clause.body, ids, reader), range: places.ofFirstWord(clause) }];
    default:
      return [];
  }
}

/** `accept` belongs to the reading right above it. */
function acceptLast(clause: ast.Accept, effects: Effect[], reader: Reader): void {
  const clauses = ast.isStep(clause.$container) ? clause.$container.clauses : [];
  const above = clauses[clauses.indexOf(clause) - 1];
  if (above === undefined || !ast.isRead(above)) {
    reader.complain('`accept` stands right behind the `read` it belongs to.', reader.places.ofFirstWord(clause));
    return;
  }
  const reading = above.reading?.ref;
  const at = effects.length - 1;
  const effect = effects[at];
  const dimension = reading === undefined ? undefined : reader.dimensionOf(reading);
  if (effect?.kind !== 'read' || reading === undefined || dimension === undefined) return;
  const span = lowerSpan(clause.span, { words: reading.name, dimensions: [dimension] }, reader);
  if (span === undefined) return;
  effects[at] = { ...effect, accept: { span, ...optional('orElseStop', clause.orElse?.reason) } };
}

export function lowerCaution(node: ast.Caution, reader: Reader): Caution | undefined {
  const hazard = resolved(node.hazard);
  if (hazard !== undefined) return { kind: 'hazard', hazard, range: reader.places.of(node.hazard?.$refNode) };
  return node.text === undefined
    ? undefined
    : { kind: 'text', text: node.text, range: reader.places.ofProperty(node, 'text') };
}

/** A waiver counts by name, whether or not there is such a rule; the checks say so. */
export function lowerWaiver(node: ast.Waive, reader: Reader): Waiver | undefined {
  const rule = node.rule?.$refText;
  if (rule === undefined) return undefined;
  const { places } = reader;
  return {
    rule,
    ruleRange: places.ofProperty(node, 'rule'),
    ...optional('because', node.because),
    range: places.ofNode(node),
    ...optional('cut', places.cut(node)),
  };
}
