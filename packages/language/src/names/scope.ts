import {
  type AstNodeDescription,
  AstUtils,
  type ReferenceInfo,
  type Scope,
  type ScopeProvider,
  type Stream,
  stream,
} from 'langium';
import * as ast from '../generated/ast.js';
import type { Group } from './groups.js';
import { isSheetDocument, type SheetDocument } from './imports.js';
import { procedureAround } from './parts.js';
import type { NameTable, VisibleNames } from './visible.js';

/** What a reference can mean, by the type it refers to. */
export const groupOf: Readonly<Record<string, Group | undefined>> = {
  Subject: 'subject',
  Observation: 'subject',
  Reading: 'subject',
  State: 'subject',
  Act: 'act',
  Hazard: 'hazard',
  Waivable: 'rule',
  Thing: 'thing',
  Usable: 'thing',
  Limits: 'limits',
  Performable: 'procedure',
};

/** Finds what a name can mean where it stands: a look into tables that are built once for each sheet. */
export function createScopeProvider(visible: VisibleNames, reflection: ast.QuarrelAstReflection): ScopeProvider {
  return {
    getScope(context: ReferenceInfo): Scope {
      const type = reflection.getReferenceType(context);
      const { container } = context;
      if (type === 'Value') return scopeOf(valuesAt(container, visible));
      if (type === 'Step') return scopeOf(stepsAt(container, visible));
      const document = sheetOf(container);
      const group = groupOf[type];
      if (document === undefined || group === undefined) return scopeOf();
      const names = visible.namesFor(document, group);
      if (type === 'Usable') {
        const procedure = procedureAround(container);
        return procedure === undefined ? scopeOf([names]) : scopeOf([names, visible.choosesOf(procedure)]);
      }
      if (type === 'Subject') {
        return statesMayBeAskedIn(container) ? scopeOf([names]) : scopeOf([names], (found) => found.type !== 'State');
      }
      if (ast.isChooseCase(container) || ast.isChooseOtherwise(container)) {
        return scopeOf([names], ({ node }) => ast.isThing(node) && node.kind === container.$container.kind);
      }
      return group === 'subject' ? scopeOf([names], (found) => found.type === type) : scopeOf([names]);
    },
  };
}

/** Whether states may be asked about beside conditions: in what an act needs, and in what a rule asks of the end. */
export function statesMayBeAskedIn(test: ReferenceInfo['container']): boolean {
  let at = test;
  while (ast.isJunction(at.$container) || ast.isNegation(at.$container) || ast.isBracketed(at.$container))
    at = at.$container;
  return (ast.isNeed(at.$container) || ast.isFinal(at.$container)) && at.$containerProperty === 'test';
}

function valuesAt(container: ReferenceInfo['container'], visible: VisibleNames): NameTable[] {
  const subject = ast.isComparison(container)
    ? container.subject?.ref
    : ast.isStateValue(container)
      ? container.state?.ref
      : undefined;
  return subject === undefined || ast.isReading(subject) ? [] : [visible.valuesOf(subject)];
}

/** The steps an example or a variation can speak of: those of its procedure, and of the variations between. */
function stepsAt(container: ReferenceInfo['container'], visible: VisibleNames): NameTable[] {
  const example = AstUtils.getContainerOfType(container, ast.isExample);
  const start = example?.procedure?.ref ?? AstUtils.getContainerOfType(container, ast.isVariation);
  const tables: NameTable[] = [];
  const met = new Set<ast.Performable>();
  for (let at = start; at !== undefined && !met.has(at); at = ast.isVariation(at) ? at.base?.ref : undefined) {
    met.add(at);
    tables.push(visible.stepsOf(at));
  }
  return tables;
}

function sheetOf(node: ReferenceInfo['container']): SheetDocument | undefined {
  const document = AstUtils.findRootNode(node).$document;
  return document !== undefined && isSheetDocument(document) ? document : undefined;
}

function scopeOf(
  tables: readonly NameTable[] = [],
  accept: (found: AstNodeDescription) => boolean = () => true,
): Scope {
  const fits = (found: AstNodeDescription | undefined): found is AstNodeDescription =>
    found !== undefined && accept(found);
  const first = (name: string): AstNodeDescription | undefined => {
    for (const table of tables) {
      const found = table.get(name);
      if (fits(found)) return found;
    }
    return undefined;
  };
  return {
    getElement: first,
    getElements: (name) => stream([first(name)].filter(fits)),
    getAllElements: (): Stream<AstNodeDescription> =>
      stream(tables.flatMap((table) => [...table.values()])).filter(fits),
  };
}
