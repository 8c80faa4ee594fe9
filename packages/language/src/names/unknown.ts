import type { Problem } from '@quarrel/model';
import { nearest } from '@quarrel/model';
import { type AstNode, AstUtils, type LinkingError, type Reference } from 'langium';
import * as ast from '../generated/ast.js';
import type { Places } from '../lower/places.js';
import { declaredIn, type Group } from './groups.js';
import type { SheetDocument } from './imports.js';
import { groupOf, statesMayBeAskedIn } from './scope.js';
import type { VisibleNames } from './visible.js';

/** What the linker leaves behind for a name that it did not find. */
export interface NameScopes {
  /** The names that could stand where a reference stands. */
  namesAt(error: LinkingError): Iterable<string>;
  /** The type of what a reference refers to. */
  typeAt(error: LinkingError): string;
}

/** The groups in which a declaration has lost its name, which has been reported: it may be the one that is looked for. */
function groupsWithNameless(document: SheetDocument, visible: VisibleNames): ReadonlySet<Group> {
  const groups = new Set<Group>();
  for (const sheet of visible.sheetsFor(document)) {
    for (const { group, node } of declaredIn(sheet.parseResult.value)) if (node.name === undefined) groups.add(group);
  }
  return groups;
}

/**
 * The names of a sheet that nothing visible has, each with the nearest that would do. A name is not reported where its sheet
 * could not be read (`blind`), nor a value whose observation is not known.
 */
export function* unknownNames(
  document: SheetDocument,
  scopes: NameScopes,
  visible: VisibleNames,
  places: Places,
  blind: boolean,
): Generator<Problem> {
  const candidates = new Map<string, readonly string[]>();
  const nameless = groupsWithNameless(document, visible);
  for (const reference of document.references) {
    if (!('ref' in reference) || reference.error === undefined) continue;
    const { container, property } = reference.error.info;
    const sought = soughtAt(container, property);
    if (sought === undefined || (blind && !isLocal(property))) continue;
    const group = groupOf[scopes.typeAt(reference.error)];
    if (group !== undefined && nameless.has(group)) continue;
    const name = reference.$refText;
    const key = `${sought} ${name}`;
    const near = candidates.get(key) ?? nearest(name, scopes.namesAt(reference.error));
    candidates.set(key, near);
    yield { rule: 'unknown-name', sought, name, candidates: near, range: places.of(reference.$refNode) };
  }
}

/** What is looked for, in the language's words; nothing where the fault lies elsewhere and is reported there. */
function soughtAt(container: AstNode, property: string): string | undefined {
  switch (container.$type) {
    case 'Waive':
      return undefined; // The checks know all rules, also those that are no part of a sheet.
    case 'Comparison':
      if (!ast.isComparison(container)) return undefined;
      if (property === 'subject') {
        return statesMayBeAskedIn(container) ? 'observation, reading or state' : 'observation or reading';
      }
      return wordsForValueOf(container.subject);
    case 'StateValue':
      return ast.isStateValue(container) && property === 'value' ? wordsForValueOf(container.state) : 'state';
    case 'Observe':
      return 'observation';
    case 'Read':
    case 'Assumed':
      return 'reading';
    case 'Caution':
    case 'Act':
      return 'hazard';
    case 'Within':
      return 'limits';
    case 'With':
    case 'Uses':
    case 'Exchange':
      return 'tool, resin, lamp, injector or consumable';
    case 'ChooseCase':
    case 'ChooseOtherwise':
      return ast.isChoose(container.$container) ? container.$container.kind : undefined;
    case 'Example':
    case 'Variation':
      return 'procedure';
    case 'HasStep':
    case 'LacksStep':
    case 'InStep':
    case 'BesideStep':
    case 'InsteadOfStep':
    case 'OmitStep':
      return stepsOwner(container);
    default:
      return 'act';
  }
}

/** Values and steps belong to a declaration that is known when they are looked for. */
function isLocal(property: string): boolean {
  return property === 'values' || property === 'value' || property === 'step';
}

function wordsForValueOf(subject: Reference<ast.Subject> | undefined): string | undefined {
  const declaration = subject?.ref;
  if (declaration === undefined || ast.isReading(declaration)) return undefined;
  // A value has lost its name, which has been reported: it may be this one.
  return declaration.values.some(({ name }) => name === undefined) ? undefined : `value of ${declaration.name}`;
}

function stepsOwner(container: AstNode): string | undefined {
  const example = AstUtils.getContainerOfType(container, ast.isExample);
  const owner =
    example === undefined ? AstUtils.getContainerOfType(container, ast.isVariation)?.base : example.procedure;
  return owner?.ref?.name === undefined ? undefined : `step of ${owner.ref.name}`;
}
