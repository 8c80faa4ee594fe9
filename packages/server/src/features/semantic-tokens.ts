import { ast, declaredIn, isSheetDocument, partsOf, type SheetDocument, shippedName, stepsIn } from '@quarrel/language';
import { type AstNode, AstUtils, type CstNode, GrammarUtils, type LangiumDocument } from 'langium';
import type { SemanticTokenProvider } from 'langium/lsp';
import {
  type Range,
  SemanticTokenModifiers,
  type SemanticTokens,
  SemanticTokensBuilder,
  SemanticTokenTypes,
} from 'vscode-languageserver';
import { isBefore } from '../check/places.js';

/** Where a name is given; what the work cannot change; what ships. */
const modifiers = [
  SemanticTokenModifiers.declaration,
  SemanticTokenModifiers.readonly,
  SemanticTokenModifiers.defaultLibrary,
] as const;

/** What a name is coloured as, by what it names. Words, texts, numbers and units are the grammar's business. */
const typeOf: Readonly<Record<string, SemanticTokenTypes>> = {
  Observation: SemanticTokenTypes.parameter,
  Reading: SemanticTokenTypes.parameter,
  State: SemanticTokenTypes.variable,
  Value: SemanticTokenTypes.enumMember,
  Act: SemanticTokenTypes.function,
  Hazard: SemanticTokenTypes.event,
  Rule: SemanticTokenTypes.interface,
  Need: SemanticTokenTypes.interface,
  Thing: SemanticTokenTypes.class,
  Choose: SemanticTokenTypes.typeParameter,
  Limits: SemanticTokenTypes.interface,
  Procedure: SemanticTokenTypes.namespace,
  Variation: SemanticTokenTypes.namespace,
  Example: SemanticTokenTypes.namespace,
  Step: SemanticTokenTypes.method,
  Property: SemanticTokenTypes.property,
};

const types = [...new Set(Object.values(typeOf))];

interface Token {
  readonly piece: CstNode;
  readonly type: number;
  readonly modifiers: number;
}

/** Names, coloured by what they mean. */
export const semanticTokens: SemanticTokenProvider = {
  tokenTypes: numbered(types),
  tokenModifiers: Object.fromEntries(modifiers.map((name, at) => [name, 1 << at])),
  semanticTokensOptions: {
    legend: { tokenTypes: types, tokenModifiers: [...modifiers] },
    full: { delta: false },
    range: true,
  },
  semanticHighlight: (document) => written(tokensOf(document)),
  semanticHighlightRange: (document, { range }) =>
    written(tokensOf(document).filter(({ piece }) => isIn(piece, range))),
  semanticHighlightDelta: (document) => written(tokensOf(document)),
};

function numbered(names: readonly string[]): Record<string, number> {
  return Object.fromEntries(names.map((name, at) => [name, at]));
}

function isIn({ range }: CstNode, { start, end }: Range): boolean {
  return !isBefore(range.end, start) && !isBefore(end, range.start);
}

/** Once over the references of the sheet and once over what it declares; a reference that leads nowhere keeps its plain colour. */
function tokensOf(document: LangiumDocument): readonly Token[] {
  if (!isSheetDocument(document)) return [];
  const tokens: Token[] = [];
  const add = (piece: CstNode | undefined, node: AstNode, isDeclaration: boolean): void => {
    const type = typeOf[node.$type];
    if (piece !== undefined && type !== undefined) {
      tokens.push({ piece, type: types.indexOf(type), modifiers: modifiersOf(node, isDeclaration) });
    }
  };
  for (const reference of document.references) {
    if ('ref' in reference && reference.ref !== undefined) add(reference.$refNode, reference.ref, false);
  }
  for (const { node, property } of namedIn(document)) {
    add(GrammarUtils.findNodeForProperty(node.$cstNode, property), node, true);
  }
  return tokens.sort((a, b) => a.piece.offset - b.piece.offset);
}

/** Everything in a sheet that gives a name, with the property that holds it. */
function* namedIn(document: SheetDocument): Generator<{ readonly node: AstNode; readonly property: string }> {
  const named = (node: AstNode): { node: AstNode; property: string } => ({ node, property: 'name' });
  for (const { node } of declaredIn(document.parseResult.value)) {
    yield named(node);
    if (ast.isObservation(node) || ast.isState(node)) yield* node.values.map(named);
    if (ast.isThing(node)) for (const property of node.properties) yield { node: property, property: 'property' };
    if (!ast.isProcedure(node) && !ast.isVariation(node)) continue;
    const parts: readonly AstNode[] = ast.isProcedure(node) ? partsOf(node) : node.parts;
    yield* parts.filter(ast.isChoose).map(named);
    for (const step of stepsIn(node)) if (step.name !== undefined) yield named(step);
  }
}

function modifiersOf(node: AstNode, isDeclaration: boolean): number {
  const given = ast.isObservation(node) || ast.isReading(node);
  return (isDeclaration ? 1 : 0) | (given ? 2 : 0) | (isShipped(node) ? 4 : 0);
}

const shipped = new WeakMap<AstNode, boolean>();

/** Whether a declaration is part of what ships; asked of many names of few sheets. */
function isShipped(node: AstNode): boolean {
  const root = AstUtils.findRootNode(node);
  const known = shipped.get(root);
  if (known !== undefined) return known;
  const uri = root.$document?.uri.toString();
  const answer = uri !== undefined && shippedName(uri) !== undefined;
  shipped.set(root, answer);
  return answer;
}

function written(tokens: readonly Token[]): SemanticTokens {
  const builder = new SemanticTokensBuilder();
  for (const { piece, type, modifiers: marks } of tokens) {
    const { start } = piece.range;
    builder.push(start.line, start.character, piece.length, type, marks);
  }
  return builder.build();
}
