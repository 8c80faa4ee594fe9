import { type ast, declaredIn, resolveUse, type SheetDocument, whatIs } from '@quarrel/language';
import type { LanguageServices } from '../../services.js';
import { code, link, list, page, plain } from './markdown.js';

/** How many names of a kind are told before the rest is only counted. */
const mostNames = 8;

/** The sheet that a `use` leads to: what it declares, and what it uses itself. */
export function useHover(use: ast.Use, document: SheetDocument, services: LanguageServices): string | undefined {
  if (use.path === undefined) return undefined;
  const found = services.names.Imports.usesOf(document).used.find((one) => one.use === use)?.document;
  if (found === undefined) return `There is no sheet at ${plain(use.path)}.`;
  const resolved = resolveUse(use.path, document.uri.toString());
  const { uses, declarations } = found.parseResult.value;
  return page([
    `**Sheet** ${resolved.kind === 'address' ? link(use.path, resolved.uri) : plain(use.path)}${resolved.kind === 'address' && resolved.shipped ? ' · ships with Quarrel' : ''}`,
    list('Declares', kindsOf(found)),
    uses.length === 0
      ? undefined
      : `Uses ${uses.flatMap(({ path }) => (path === undefined ? [] : [code(path)])).join(', ')}`,
    declarations.length === 0 && uses.length === 0 ? 'It is empty.' : undefined,
  ]);
}

function kindsOf(document: SheetDocument): readonly string[] {
  const kinds = new Map<string, string[]>();
  for (const { node } of declaredIn(document.parseResult.value)) {
    if (node.name === undefined) continue;
    const what = whatIs(node);
    const names = kinds.get(what) ?? [];
    names.push(node.name);
    kinds.set(what, names);
  }
  return [...kinds].map(([what, names]) => {
    const shown = names.slice(0, mostNames).map(code).join(', ');
    const more = names.length - mostNames;
    return `${names.length === 1 ? what : `${names.length} ${what === 'hazard' || !what.endsWith('s') ? `${what}s` : what}`}: ${shown}${more > 0 ? `, and ${more} more` : ''}`;
  });
}
