import { ast, documentationOf, whatIs } from '@quarrel/language';
import type { AstNode } from 'langium';
import { heading } from '../hover/declarations.js';
import { code, list, page, paragraphs, plain } from '../hover/markdown.js';
import { wordHelp } from '../hover/words.js';

/** What a declaration is, from its own lines. */
export function documentation(node: AstNode & { readonly name?: string; readonly label?: string }): string {
  const label = ast.isStep(node) ? node.text : node.label;
  return page([
    heading(label ?? node.name ?? '', whatIs(node), node.name),
    ...paragraphs(documentationOf(node)),
    ...partsOf(node),
  ]);
}

/** What a word of the language is for, and how it is written. */
export function wordDocumentation(word: string): string | undefined {
  const help = wordHelp(word);
  return help === undefined ? undefined : page([help.says, code(help.example)]);
}

function partsOf(node: AstNode): readonly (string | undefined)[] {
  if (ast.isAct(node)) {
    return [
      list(
        'Needs',
        node.needs.map(({ test }) => code(textOf(test))),
      ),
      list(
        'Makes',
        node.makes.map(({ made }) => code(textOf(made))),
      ),
      list(
        'Raises',
        node.raises.map(({ $refText }) => code($refText)),
      ),
    ];
  }
  if (ast.isHazard(node)) {
    return [
      node.signal === undefined ? undefined : `Signal word: ${node.signal}`,
      list(
        'Protects',
        node.measures.map(({ kind, text }) => `${kind === 'wear' ? 'wear ' : ''}${plain(text ?? '')}`),
      ),
    ];
  }
  if (ast.isObservation(node) || ast.isState(node)) {
    return [
      list(
        'Values',
        node.values.map(({ name, label }) => `${code(name)}${label === undefined ? '' : ` ${plain(label)}`}`),
      ),
    ];
  }
  if (ast.isReading(node)) return [plain(textOf(node.range))];
  if (ast.isThing(node))
    return [
      list(
        'Datasheet',
        node.properties.map((property) => plain(textOf(property))),
      ),
    ];
  if (ast.isChoose(node))
    return [
      list(
        'Cases',
        [...node.cases, ...node.otherwise].map((one) => code(textOf(one))),
      ),
    ];
  if (ast.isLimits(node))
    return [
      list(
        'Allows',
        node.allowances.map(({ test }) => code(textOf(test))),
      ),
    ];
  if (ast.isNeed(node)) return [`Needs ${code(textOf(node.test))}`, ...node.because.slice(0, 1).map(plain)];
  if (ast.isRule(node))
    return [
      list(
        'Asks',
        node.patterns.map((pattern) => code(textOf(pattern))),
      ),
      ...node.because.slice(0, 1).map(plain),
    ];
  return [];
}

function textOf(node: AstNode | undefined): string {
  return (node?.$cstNode?.text ?? '').replace(/\s+/g, ' ');
}
