import type { Problem } from '@quarrel/model';
import { type AstNode, AstUtils } from 'langium';
import * as ast from '../generated/ast.js';
import type { Places } from '../lower/places.js';
import { declaredIn, whatIs } from './groups.js';
import type { SheetDocument } from './imports.js';
import { partsOf } from './parts.js';
import { stepsIn, type VisibleNames } from './visible.js';

/** Names given twice: at the later one, or where a sheet is used that brings a name a second time. */
export function* clashes(
  document: SheetDocument,
  visible: VisibleNames,
  placesOf: (document: SheetDocument) => Places,
): Generator<Problem> {
  const places = placesOf(document);
  const sheet = document.parseResult.value;
  const clash = (name: string, what: string, other: Problem['range'], range: Problem['range']): Problem => ({
    rule: 'name-clash',
    name,
    what,
    other,
    range,
  });
  const owner = new Map<AstNode, SheetDocument>();
  for (const one of visible.sheetsFor(document)) owner.set(one.parseResult.value, one);
  const rangeOf = (node: AstNode): Problem['range'] =>
    placesOf(owner.get(AstUtils.findRootNode(node)) ?? document).ofName(node);

  for (const { group, node } of declaredIn(sheet)) {
    const first = node.name === undefined ? undefined : visible.namesFor(document, group).get(node.name)?.node;
    if (node.name !== undefined && first !== undefined && first !== node) {
      yield clash(node.name, whatIs(first), rangeOf(first), places.ofName(node));
    }
    if (ast.isObservation(node) || ast.isState(node)) {
      yield* doubles(node.values, (name, one, two) => clash(name, 'value', rangeOf(one), rangeOf(two)));
    }
    if (ast.isProcedure(node)) {
      yield* doubles(stepsIn(node), (name, one, two) => clash(name, 'step', rangeOf(one), rangeOf(two)));
      const things = visible.namesFor(document, 'thing');
      const chooses = partsOf(node).filter(ast.isChoose);
      yield* doubles(chooses, (name, one, two) => clash(name, whatIs(one), rangeOf(one), rangeOf(two)));
      for (const choose of chooses) {
        const thing = choose.name === undefined ? undefined : things.get(choose.name)?.node;
        if (thing !== undefined) yield clash(choose.name, whatIs(thing), rangeOf(thing), rangeOf(choose));
      }
    }
  }
}

function* doubles<N extends AstNode & { readonly name?: string }>(
  nodes: Iterable<N>,
  clash: (name: string, first: N, second: N) => Problem,
): Generator<Problem> {
  const met = new Map<string, N>();
  for (const node of nodes) {
    if (node.name === undefined) continue;
    const first = met.get(node.name);
    if (first === undefined) met.set(node.name, node);
    else yield clash(node.name, first, node);
  }
}

/** Names that two sheets bring which know nothing of each other, at the `use` that brings the second one. */
export function* clashesOfUsed(
  document: SheetDocument,
  used: readonly { readonly use: ast.Use; readonly document: SheetDocument }[],
  visible: VisibleNames,
  placesOf: (document: SheetDocument) => Places,
): Generator<Problem> {
  const reach = used.map((one) => new Set(visible.sheetsFor(one.document)));
  const met = new Map<string, { readonly node: AstNode & { readonly name?: string }; readonly sheet: SheetDocument }>();
  const done = new Set<SheetDocument>();
  for (const { use, document: sheet } of used) {
    for (const one of visible.sheetsFor(sheet)) {
      if (done.has(one) || one === document) continue;
      done.add(one);
      for (const { group, node } of declaredIn(one.parseResult.value)) {
        if (node.name === undefined) continue;
        const key = `${group} ${node.name}`;
        const first = met.get(key);
        if (first === undefined) met.set(key, { node, sheet: one });
        else if (first.sheet !== one && !reach.some((sheets) => sheets.has(first.sheet) && sheets.has(one))) {
          const range = placesOf(document).ofProperty(use, 'path');
          const other = placesOf(first.sheet).ofName(first.node);
          yield { rule: 'name-clash', name: node.name, what: whatIs(first.node), other, range };
        }
      }
    }
  }
}
