import { ast } from '@quarrel/language';
import { type AstNode, GrammarUtils } from 'langium';
import { type Range, SymbolKind } from 'vscode-languageserver';

/** What an editor lists of a sheet: an icon, words, and where it stands. */
export interface Listed {
  readonly kind: SymbolKind;
  readonly name: string;
  readonly detail?: string;
  readonly range: Range;
  /** Its name in the text; always inside `range`. */
  readonly selection: Range;
}

const kinds: Readonly<Record<string, SymbolKind>> = {
  Observation: SymbolKind.Enum,
  Reading: SymbolKind.Number,
  State: SymbolKind.Enum,
  Value: SymbolKind.EnumMember,
  Act: SymbolKind.Function,
  Hazard: SymbolKind.Event,
  Rule: SymbolKind.Interface,
  Need: SymbolKind.Interface,
  Thing: SymbolKind.Object,
  Limits: SymbolKind.Struct,
  Assume: SymbolKind.Constant,
  Choose: SymbolKind.TypeParameter,
  Procedure: SymbolKind.Module,
  Variation: SymbolKind.Module,
  Example: SymbolKind.Package,
  Stage: SymbolKind.Namespace,
  Step: SymbolKind.Method,
  Repeat: SymbolKind.Array,
  WhenCase: SymbolKind.Operator,
  Otherwise: SymbolKind.Operator,
};

/** How a node is listed; nothing for what is not worth a line of its own, and for what has lost its words. */
export function listed(node: AstNode): Listed | undefined {
  const kind = kinds[node.$type];
  const words = wordsOf(node);
  const range = node.$cstNode?.range;
  if (kind === undefined || words === undefined || range === undefined) return undefined;
  const piece = GrammarUtils.findNodeForProperty(node.$cstNode, words.at);
  const { name, detail } = words;
  return {
    kind,
    name,
    ...(detail === undefined || detail === name ? {} : { detail }),
    range,
    selection: piece?.range ?? { start: range.start, end: range.start },
  };
}

/** The words of a node, other words for it, and the property in which its name stands. */
function wordsOf(
  node: AstNode,
): { readonly name: string; readonly detail?: string | undefined; readonly at: string } | undefined {
  const given = (name: string | undefined, at: string, detail?: string) =>
    name === undefined || name.trim() === '' ? undefined : { name, at, detail };
  if (ast.isStep(node)) return given(node.text, 'text', node.name) ?? given(node.name, 'name');
  if (ast.isStage(node)) return given(node.label, 'label');
  if (ast.isExample(node)) return given(node.label, 'label', node.name) ?? given(node.name, 'name');
  if (ast.isAssume(node)) return given(node.topic, 'topic', node.label);
  if (ast.isRepeat(node)) return given(repeatWords(node), 'word', node.until);
  if (ast.isWhenCase(node)) return given(`when ${textOf(node.test)}`, 'test');
  if (ast.isOtherwise(node))
    return given(node.test === undefined ? 'otherwise' : `otherwise when ${textOf(node.test)}`, 'test');
  if (ast.isNeed(node)) return given(node.name, 'name');
  const { name, label } = namesOf(node);
  return given(name, 'name', label);
}

function namesOf(node: AstNode): { readonly name: string | undefined; readonly label: string | undefined } {
  const text = (property: string): string | undefined => {
    const value: unknown = new Map(Object.entries(node)).get(property);
    return typeof value === 'string' ? value : undefined;
  };
  return { name: text('name'), label: text('label') };
}

function repeatWords({ times }: ast.Repeat): string {
  return times === undefined ? 'repeat' : `repeat at most ${times} times`;
}

function textOf(node: AstNode | undefined): string {
  return (node?.$cstNode?.text ?? '…').replace(/\s+/g, ' ');
}
