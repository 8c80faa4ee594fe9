import { ruleCatalogue } from '@quarrel/checks';
import {
  ast,
  declaredIn,
  type Group,
  procedureAround,
  type SheetDocument,
  shippedName,
  whatIs,
} from '@quarrel/language';
import { type AstNode, AstUtils, UriUtils } from 'langium';
import type { LanguageServices } from '../../services.js';
import type { Renamable } from './rename.js';

/** What has the name already, and where, in words; nothing where the name is free wherever the target can be seen. */
export function clashOf(target: Renamable, name: string, services: LanguageServices): string | undefined {
  const isRule = ast.isRule(target.node) || ast.isNeed(target.node);
  if (isRule && ruleCatalogue.some((rule) => rule.name === name))
    return `\`${name}\` is a rule of Quarrel's own: take another name.`;
  for (const other of rivals(target, name, services)) if (other !== target.node) return taken(other, name);
  return undefined;
}

/** Whatever is called `name` and may not be called the same. */
function* rivals({ node, document }: Renamable, name: string, services: LanguageServices): Generator<AstNode> {
  if (ast.isValue(node)) {
    const { $container } = node;
    for (const value of ast.isObservation($container) || ast.isState($container) ? $container.values : []) {
      if (value.name === name) yield value;
    }
    return;
  }
  const users = services.shared.workspace.IndexManager.usersOf(document);
  if (ast.isStep(node)) {
    yield* stepRivals(node, name, users, services);
    return;
  }
  const { namesFor, choosesOf } = services.names.VisibleNames;
  const around = ast.isChoose(node) ? procedureAround(node) : undefined;
  if (around !== undefined) yield* present(choosesOf(around).get(name)?.node);
  const group = ast.isChoose(node) ? 'thing' : groupOf(node, document);
  if (group === undefined) return;
  for (const user of ast.isChoose(node) ? [document] : users) {
    yield* present(namesFor(user, group).get(name)?.node);
    if (!ast.isThing(node)) continue;
    for (const one of performables(user)) yield* present(choosesOf(one).get(name)?.node);
  }
}

/** Steps of the same procedure, of its variations, and of what it is a variation of. */
function* stepRivals(
  step: AstNode,
  name: string,
  users: readonly SheetDocument[],
  services: LanguageServices,
): Generator<AstNode> {
  const owner = procedureAround(step);
  if (owner === undefined) return;
  const above = new Set(chainOf(owner));
  for (const one of [...above, ...users.flatMap(performables)]) {
    if (above.has(one) || chainOf(one).includes(owner))
      yield* present(services.names.VisibleNames.stepsOf(one).get(name)?.node);
  }
}

/** A procedure or a variation, and what it is a variation of. */
function chainOf(start: ast.Performable): readonly ast.Performable[] {
  const chain: ast.Performable[] = [];
  for (
    let at: ast.Performable | undefined = start;
    at !== undefined && !chain.includes(at);
    at = ast.isVariation(at) ? at.base?.ref : undefined
  ) {
    chain.push(at);
  }
  return chain;
}

function performables(document: SheetDocument): readonly ast.Performable[] {
  return document.parseResult.value.declarations.filter((one) => ast.isProcedure(one) || ast.isVariation(one));
}

function groupOf(node: AstNode, document: SheetDocument): Group | undefined {
  for (const named of declaredIn(document.parseResult.value)) if (named.node === node) return named.group;
  return undefined;
}

function present(node: AstNode | undefined): readonly AstNode[] {
  return node === undefined ? [] : [node];
}

function taken(other: AstNode, name: string): string {
  const { uri } = AstUtils.getDocument(other);
  const shipped = shippedName(uri.toString());
  const sheet = shipped === undefined ? UriUtils.basename(uri) : `quarrel:${shipped}`;
  const what = whatIs(other);
  const article = /^[aeiou]/.test(what) ? 'an' : 'a';
  const line = (other.$cstNode?.range.start.line ?? 0) + 1;
  return `\`${name}\` is already the name of ${article} ${what} in ${sheet}, line ${line}: take another name.`;
}
