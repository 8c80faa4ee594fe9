import type { AstNode, AstNodeDescription, AstNodeDescriptionProvider } from 'langium';
import * as ast from '../generated/ast.js';
import { declaredIn, type Group } from './groups.js';
import type { Imports, SheetDocument } from './imports.js';
import { partsOf } from './parts.js';

export type NameTable = ReadonlyMap<string, AstNodeDescription>;

/** The names that can be seen from a place, each table built once. */
export interface VisibleNames {
  /** The sheets visible to one: what it uses, depth first in the order of `use`, then the sheet itself. */
  sheetsFor(document: SheetDocument): readonly SheetDocument[];
  /** The names of one group visible to a sheet; where two clash, the one met first. */
  namesFor(document: SheetDocument, group: Group): NameTable;
  valuesOf(declaration: ast.Observation | ast.State): NameTable;
  choosesOf(procedure: ast.Procedure | ast.Variation): NameTable;
  stepsOf(procedure: ast.Procedure | ast.Variation): NameTable;
  /** Forgets what was built; for a workspace whose sheets have changed. */
  clear(): void;
}

export function createVisibleNames(imports: Imports, descriptions: AstNodeDescriptionProvider): VisibleNames {
  let sheets = new WeakMap<SheetDocument, readonly SheetDocument[]>();
  let groups = new WeakMap<SheetDocument, ReadonlyMap<Group, NameTable>>();
  let own = new WeakMap<AstNode, NameTable>();
  let steps = new WeakMap<AstNode, NameTable>();

  const tableOf = (nodes: Iterable<AstNode & { readonly name?: string }>): NameTable => {
    const table = new Map<string, AstNodeDescription>();
    for (const node of nodes) {
      if (node.name !== undefined && !table.has(node.name)) {
        table.set(node.name, descriptions.createDescription(node, node.name));
      }
    }
    return table;
  };
  const sheetsFor = (document: SheetDocument): readonly SheetDocument[] =>
    remember(sheets, document, () =>
      depthFirst(document, (one) => imports.usesOf(one).used.map((used) => used.document)),
    );

  return {
    sheetsFor,
    namesFor(document, group) {
      const all = remember(groups, document, () => {
        const nodes = new Map<Group, AstNode[]>();
        for (const sheet of sheetsFor(document)) {
          for (const named of declaredIn(sheet.parseResult.value)) {
            const known = nodes.get(named.group);
            if (known === undefined) nodes.set(named.group, [named.node]);
            else known.push(named.node);
          }
        }
        return new Map([...nodes].map(([key, list]) => [key, tableOf(list)]));
      });
      return all.get(group) ?? new Map();
    },
    valuesOf: (declaration) => remember(own, declaration, () => tableOf(declaration.values)),
    choosesOf: (procedure) => remember(own, procedure, () => tableOf(allPartsOf(procedure).filter(ast.isChoose))),
    stepsOf: (procedure) => remember(steps, procedure, () => tableOf(stepsIn(procedure))),
    clear() {
      sheets = new WeakMap();
      groups = new WeakMap();
      own = new WeakMap();
      steps = new WeakMap();
    },
  };
}

function remember<K extends object, V>(known: WeakMap<K, V>, key: K, build: () => V): V {
  const found = known.get(key);
  if (found !== undefined) return found;
  const built = build();
  known.set(key, built);
  return built;
}

/** What `root` uses before `root` itself, every sheet once. Without recursion, as chains of sheets may be long. */
function depthFirst(
  root: SheetDocument,
  usedBy: (document: SheetDocument) => readonly SheetDocument[],
): readonly SheetDocument[] {
  const met = new Set([root]);
  const done: SheetDocument[] = [];
  const open = [{ document: root, rest: [...usedBy(root)] }];
  for (let top = open.at(-1); top !== undefined; top = open.at(-1)) {
    const next = top.rest.shift();
    if (next === undefined) {
      done.push(top.document);
      open.pop();
    } else if (!met.has(next)) {
      met.add(next);
      open.push({ document: next, rest: [...usedBy(next)] });
    }
  }
  return done;
}

type Part = ast.Procedure['parts'][number] | ast.Variation['parts'][number];

const stepsKnown = new WeakMap<AstNode, readonly ast.Step[]>();

/** Every step of a procedure or a variation in program order, also those inside `meanwhile`. */
export function stepsIn(procedure: ast.Procedure | ast.Variation): readonly ast.Step[] {
  return remember(stepsKnown, procedure, () => {
    const steps: ast.Step[] = [];
    for (const part of allPartsOf(procedure)) gatherSteps(part, steps);
    return steps;
  });
}

function allPartsOf(procedure: ast.Procedure | ast.Variation): readonly Part[] {
  return ast.isProcedure(procedure) ? partsOf(procedure) : procedure.parts;
}

function gatherSteps(part: Part, steps: ast.Step[]): void {
  switch (part.$type) {
    case 'Step':
      steps.push(part);
      gatherMeanwhile(part.clauses, steps);
      break;
    case 'InStep':
      gatherMeanwhile(part.clauses, steps);
      break;
    case 'When':
      for (const one of [part.first, ...part.others]) gatherFromBlock(one?.body, steps);
      break;
    case 'Stage':
    case 'Repeat':
    case 'BesideStep':
    case 'InsteadOfStep':
      gatherFromBlock(part.body, steps);
      break;
    default:
  }
}

function gatherMeanwhile(clauses: readonly ast.StepClause[], steps: ast.Step[]): void {
  for (const clause of clauses) if (clause.$type === 'Meanwhile') gatherFromBlock(clause.body, steps);
}

function gatherFromBlock(block: ast.Block | undefined, steps: ast.Step[]): void {
  for (const part of block?.parts ?? []) gatherSteps(part, steps);
}
