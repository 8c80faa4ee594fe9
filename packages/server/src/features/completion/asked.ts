import type { Moment } from '@quarrel/analysis';
import { ast, type Group, type SheetDocument } from '@quarrel/language';
import type { Step } from '@quarrel/model';
import type { AstNode } from 'langium';
import type { Position } from 'vscode-languageserver';
import { contains, isBefore, positionOf, rangeOf } from '../../check/places.js';
import type { LanguageServices } from '../../services.js';
import type { Place } from '../place/place.js';
import { metIn } from '../place/threads.js';
import { type Known, knownAround } from '../runs.js';

/** What is asked: which words, and where. */
export interface Asked {
  readonly document: SheetDocument;
  readonly services: LanguageServices;
  readonly place: Place;
  readonly position: Position;
  /** The procedure or variation around the cursor. */
  readonly procedure?: ast.Procedure | ast.Variation;
  readonly known?: Known;
  /** The step around the cursor. */
  readonly step?: Step;
  /** The work as far as it has come here; missing where no run comes. */
  readonly moment?: Moment;
}

export type Declared = AstNode & { readonly name?: string; readonly label?: string };

/** Everything around a place that decides what makes sense there. */
export function askedAt(document: SheetDocument, place: Place, position: Position, services: LanguageServices): Asked {
  const asked = { document, services, place, position };
  const procedure = procedureAt(document, place);
  if (procedure === undefined) return asked;
  const known = knownAround(procedure, services);
  if (known === undefined) return { ...asked, procedure };
  const isInStep = place.levels.some(({ frame }) => frame?.rule === 'Step');
  const step = innermost(known.steps, position, isInStep);
  const moment = momentAt(known, step, position);
  return {
    ...asked,
    procedure,
    known,
    ...(step === undefined ? {} : { step }),
    ...(moment === undefined ? {} : { moment }),
  };
}

/** The names of one group that can be seen, in the order declared: first what is used, then the sheet's own. */
export function named({ document, services }: Asked, group: Group): readonly Declared[] {
  return [...services.names.VisibleNames.namesFor(document, group).values()].flatMap(({ node }) => node ?? []);
}

/** The declaration of this name. */
export function declared(asked: Asked, group: Group, name: string | undefined): Declared | undefined {
  if (name === undefined) return undefined;
  return asked.services.names.VisibleNames.namesFor(asked.document, group).get(name)?.node;
}

function procedureAt(document: SheetDocument, place: Place): ast.Procedure | ast.Variation | undefined {
  const frame = place.levels[1]?.frame;
  if (frame === undefined || !/^(Procedure|Variation|Step|Block|Choose|Covers)$/.test(frame.rule)) return undefined;
  const [name] = [...metIn(frame, 'Procedure', 'name'), ...metIn(frame, 'Variation', 'name')];
  const before = document.parseResult.value.declarations
    .filter((one) => ast.isProcedure(one) || ast.isVariation(one))
    .filter(({ $cstNode }) => ($cstNode?.offset ?? 0) < place.start);
  return before.findLast((one) => one.name === name) ?? before.at(-1);
}

/** The step around a position. One whose `}` is missing may end before it. */
function innermost(steps: readonly Step[], position: Position, isInStep: boolean): Step | undefined {
  const around = steps.findLast(({ whole }) => whole !== undefined && contains(rangeOf(whole), position));
  if (around !== undefined || !isInStep) return around;
  return steps.findLast(({ whole }) => whole !== undefined && isBefore(positionOf(whole.start), position));
}

/** The moment before the step at the cursor, or behind the one before it, or before the next where that stands nearer. */
function momentAt({ steps, run }: Known, step: Step | undefined, position: Position): Moment | undefined {
  if (run === undefined) return undefined;
  const reached = (moment: Moment | undefined): Moment | undefined =>
    moment === undefined || moment.reached === run.situations.store.nowhere ? undefined : moment;
  if (step !== undefined) return reached(run.steps[steps.indexOf(step)]?.before);
  const next = steps.findIndex(({ whole }) => whole !== undefined && isBefore(position, positionOf(whole.start)));
  const previous = next < 0 ? steps.length - 1 : next - 1;
  const column = (at: number): number => steps[at]?.whole?.start.column ?? 0;
  const isDeeper = previous >= 0 && next >= 0 && column(previous) > column(next);
  const before = reached(run.steps[next]?.before);
  return isDeeper || previous < 0 ? before : (reached(run.steps[previous]?.after) ?? before);
}
