import type { Declaration, Value } from '@quarrel/model';
import type { AstNode } from 'langium';
import type * as ast from '../generated/ast.js';
import { documentationOf } from './places.js';
import { optional, type Reader } from './reader.js';

/** What every declaration has; nothing where its name is lost. */
export function declared(
  node: AstNode & { readonly name?: string; readonly label?: string },
  reader: Reader,
): Declaration | undefined {
  if (node.name === undefined) return undefined;
  return {
    name: node.name,
    label: node.label ?? node.name,
    ...optional('documentation', documentationOf(node)),
    range: reader.places.ofName(node),
  };
}

/** The values of an observation or a state, each name once; a second one of a name is reported elsewhere. */
export function lowerValues(nodes: readonly ast.Value[], reader: Reader): readonly Value[] {
  const values = new Map<string, Value>();
  for (const node of nodes) {
    if (node.name === undefined || values.has(node.name)) continue;
    values.set(node.name, { name: node.name, label: node.label ?? node.name, range: reader.places.ofName(node) });
  }
  return [...values.values()];
}
