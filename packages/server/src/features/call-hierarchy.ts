import { ast, isSheetDocument, procedureAround, type SheetDocument } from '@quarrel/language';
import { type AstNode, AstUtils, type LangiumDocument, URI } from 'langium';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CallHierarchyOutgoingCall,
  CallHierarchyPrepareParams,
  Range,
} from 'vscode-languageserver';
import type { LanguageServices } from '../services.js';
import { declarationsAt, leafAt } from './cursor.js';
import { listed } from './symbols.js';

/** What can stand in the hierarchy: an act, a step that does it, the stage and the procedure around the step. */
type Doer = ast.Act | ast.Step | ast.Stage | ast.Procedure;

/** What the cursor is on: an act or a step by name, or the step, stage or procedure whose first words it is on. */
export function prepareCalls(
  document: LangiumDocument,
  { position }: CallHierarchyPrepareParams,
  services: LanguageServices,
): CallHierarchyItem[] {
  if (!isSheetDocument(document)) return [];
  const found = declarationsAt(document, position, services);
  if (found === undefined) return [];
  const nodes = found.declarations.length > 0 ? found.declarations : [found.leaf.astNode];
  return nodes.filter(isDoer).flatMap(itemOf);
}

/** Who does it: the steps that do an act, the stage or procedure that a step or a stage is in. */
export function incomingCalls(item: CallHierarchyItem, services: LanguageServices): CallHierarchyIncomingCall[] {
  const node = nodeOf(item, services);
  if (node === undefined) return [];
  if (!ast.isAct(node)) {
    const around = aroundOf(node);
    return around === undefined ? [] : itemOf(around).map((from) => ({ from, fromRanges: [item.selectionRange] }));
  }
  return stepsThatDo(node, services).flatMap(([step, fromRanges]) =>
    itemOf(step).map((from) => ({ from, fromRanges })),
  );
}

/** What it does: the acts of a step and the steps during its hold, the steps of a stage, the stages of a procedure. */
export function outgoingCalls(item: CallHierarchyItem, services: LanguageServices): CallHierarchyOutgoingCall[] {
  const node = nodeOf(item, services);
  if (node === undefined || ast.isAct(node)) return [];
  const acts = ast.isStep(node) ? actsOf(node) : [];
  const inner = [...directlyIn(node)].flatMap((part) =>
    itemOf(part).map((to) => ({ to, fromRanges: [to.selectionRange] })),
  );
  return [...acts, ...inner];
}

function isDoer(node: AstNode): node is Doer {
  return ast.isAct(node) || ast.isStep(node) || ast.isStage(node) || ast.isProcedure(node);
}

function itemOf(node: Doer): CallHierarchyItem[] {
  const uri = AstUtils.findRootNode(node).$document?.uri.toString();
  const entry = listed(node);
  if (uri === undefined || entry === undefined) return [];
  const { kind, name, detail, range, selection } = entry;
  return [{ kind, name, ...(detail === undefined ? {} : { detail }), uri, range, selectionRange: selection }];
}

/** The node that an item was made of, as long as the sheet still has it there. */
function nodeOf({ uri, selectionRange, kind }: CallHierarchyItem, services: LanguageServices): Doer | undefined {
  const document = services.shared.workspace.LangiumDocuments.getDocument(URI.parse(uri));
  if (document === undefined || !isSheetDocument(document)) return undefined;
  const { start } = selectionRange;
  let node: AstNode | undefined = leafAt(document, start)?.astNode;
  for (; node !== undefined; node = node.$container) {
    const entry = isDoer(node) ? listed(node) : undefined;
    const { line, character } = entry?.selection.start ?? {};
    if (isDoer(node) && entry?.kind === kind && line === start.line && character === start.character) return node;
  }
  return undefined;
}

function stepsThatDo(act: ast.Act, { shared }: LanguageServices): readonly (readonly [ast.Step, Range[]])[] {
  const home = AstUtils.findRootNode(act).$document;
  if (home === undefined || !isSheetDocument(home)) return [];
  const steps = new Map<ast.Step, Range[]>();
  for (const sheet of shared.workspace.IndexManager.usersOf(home)) {
    for (const [step, range] of doingIn(sheet, act)) steps.set(step, [...(steps.get(step) ?? []), range]);
  }
  return [...steps];
}

function* doingIn(sheet: SheetDocument, act: ast.Act): Generator<readonly [ast.Step, Range]> {
  for (const reference of sheet.references) {
    if (!('ref' in reference) || reference.ref !== act || reference.$refNode === undefined) continue;
    const around = reference.$refNode.astNode;
    const step = ast.isDo(around) ? AstUtils.getContainerOfType(around, ast.isStep) : undefined;
    if (step !== undefined) yield [step, reference.$refNode.range];
  }
}

function actsOf(step: ast.Step): CallHierarchyOutgoingCall[] {
  const calls = new Map<ast.Act, Range[]>();
  for (const { ref, $refNode } of step.clauses.filter(ast.isDo).flatMap(({ acts }) => acts)) {
    if (ref !== undefined && $refNode !== undefined) calls.set(ref, [...(calls.get(ref) ?? []), $refNode.range]);
  }
  return [...calls].flatMap(([act, fromRanges]) => itemOf(act).map((to) => ({ to, fromRanges })));
}

/** The nearest step, stage or procedure around. */
function aroundOf(node: ast.Step | ast.Stage | ast.Procedure): Doer | undefined {
  let at: AstNode | undefined = node.$container;
  for (; at !== undefined; at = at.$container) {
    if (ast.isStep(at) || ast.isStage(at) || ast.isProcedure(at)) return at;
    if (ast.isStray(at)) {
      const procedure = procedureAround(at);
      return procedure !== undefined && ast.isProcedure(procedure) ? procedure : undefined;
    }
  }
  return undefined;
}

/** The steps and stages inside, without those that are inside of them in turn. */
function* directlyIn(node: AstNode): Generator<ast.Step | ast.Stage> {
  for (const child of AstUtils.streamContents(node)) {
    if (ast.isStep(child) || ast.isStage(child)) yield child;
    else yield* directlyIn(child);
  }
}
