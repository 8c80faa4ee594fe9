import type { Moment, Run } from '@quarrel/analysis';
import type { ProcedureReport } from '@quarrel/checks';
import { ast, type Group, type SheetDocument, stepsIn } from '@quarrel/language';
import { type Step, stepsOf } from '@quarrel/model';
import type { AstNode } from 'langium';
import type { LanguageServices } from '../../services.js';
import type { Place } from '../place/place.js';
import { metIn } from '../place/threads.js';

/** What the checks found out about a procedure last. */
interface Known {
  readonly report: ProcedureReport;
  readonly steps: readonly Step[];
  /** Missing where the procedure is too tangled to be run. */
  readonly run?: Run;
}

/** What is asked: which words, and where. */
export interface Asked {
  readonly document: SheetDocument;
  readonly services: LanguageServices;
  readonly place: Place;
  /** The procedure or variation around the cursor. */
  readonly procedure?: ast.Procedure | ast.Variation;
  readonly known?: Known;
  /** The step around the cursor. */
  readonly step?: Step;
  /** The work as far as it has come here; missing where no run comes. */
  readonly moment?: Moment;
}

export type Declared = AstNode & { readonly name?: string; readonly label?: string };

/** Everything around a place that decides what makes sense there. The run is the last one made: a keystroke waits for none. */
export function askedAt(document: SheetDocument, place: Place, services: LanguageServices): Asked {
  const asked = { document, services, place };
  const procedure = procedureAt(document, place);
  if (procedure === undefined) return asked;
  const { procedures } = services.check.Checks.latest(document);
  const report = procedures.findLast((one) => one.procedure.name === procedure.name);
  if (report === undefined) return { ...asked, procedure };
  const { interpretation } = report;
  const steps = stepsOf(report.procedure);
  const known: Known = interpretation.kind === 'run' ? { report, steps, run: interpretation.run } : { report, steps };
  const nodes = [...stepsIn(procedure)];
  const at = stepAround(nodes, place);
  const step = at === undefined ? undefined : sameStep(at, nodes, known);
  const moment = momentAt(known, nodes, at, step, place);
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

/** The step around a place. One whose `}` is missing may end before it. */
function stepAround(nodes: readonly ast.Step[], { start, levels }: Place): ast.Step | undefined {
  const around = nodes.findLast((node) => startOf(node) < start && start <= (node.$cstNode?.end ?? 0));
  const isInStep = levels.some(({ frame }) => frame?.rule === 'Step');
  return around ?? (isInStep ? nodes.findLast((node) => startOf(node) < start) : undefined);
}

/** The step of the run that a step of the tree is: by its name, or by its text among those of the same text. */
function sameStep(node: ast.Step, nodes: readonly ast.Step[], { steps }: Known): Step | undefined {
  if (node.name !== undefined) {
    const ofName = steps.find(({ id }) => id === node.name);
    if (ofName !== undefined) return ofName;
  }
  const alike = nodes.filter(({ text }) => text === node.text);
  return steps.filter(({ text }) => text === node.text)[alike.indexOf(node)];
}

/** The moment before the step at the cursor, or behind the one before it, or before the next where that stands nearer. */
function momentAt(
  known: Known,
  nodes: readonly ast.Step[],
  around: ast.Step | undefined,
  step: Step | undefined,
  { start }: Place,
): Moment | undefined {
  const { run, steps } = known;
  if (run === undefined) return undefined;
  const record = (one: Step | undefined) => (one === undefined ? undefined : run.steps[steps.indexOf(one)]);
  const reached = (moment: Moment | undefined): Moment | undefined =>
    moment === undefined || moment.reached === run.situations.store.nowhere ? undefined : moment;
  if (step !== undefined) return reached(record(step)?.before);
  const others = nodes.filter((node) => node !== around);
  const previous = others.findLast((node) => startOf(node) < start);
  const next = others.find((node) => startOf(node) >= start);
  const behind = previous === undefined ? undefined : reached(record(sameStep(previous, nodes, known))?.after);
  const before = next === undefined ? undefined : reached(record(sameStep(next, nodes, known))?.before);
  const isDeeper = previous !== undefined && next !== undefined && columnOf(previous) > columnOf(next);
  return isDeeper ? (before ?? behind) : (behind ?? before);
}

function startOf(node: ast.Step): number {
  return node.$cstNode?.offset ?? 0;
}

function columnOf(node: ast.Step): number {
  return node.$cstNode?.range.start.character ?? 0;
}
