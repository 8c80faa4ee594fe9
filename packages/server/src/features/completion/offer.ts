import { whatIs } from '@quarrel/language';
import { type CompletionItem, CompletionItemKind, type Range } from 'vscode-languageserver';
import type { Declared } from './asked.js';
import { documentation } from './documentation.js';

/** Something that may stand at the cursor. */
export interface Offer {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** Lower ones come first; those of one rank in the order in which they are offered. */
  readonly rank: number;
  /** A few words about it, here and now. */
  readonly detail?: string;
  /** Words for people, which may be typed instead of its name. */
  readonly words?: string;
  readonly documentation?: string;
}

const kinds: Readonly<Record<string, CompletionItemKind>> = {
  Act: CompletionItemKind.Function,
  Hazard: CompletionItemKind.Event,
  Rule: CompletionItemKind.Interface,
  Need: CompletionItemKind.Interface,
  Observation: CompletionItemKind.Field,
  Reading: CompletionItemKind.Field,
  State: CompletionItemKind.Variable,
  Value: CompletionItemKind.EnumMember,
  Thing: CompletionItemKind.Constant,
  Choose: CompletionItemKind.Reference,
  Limits: CompletionItemKind.Struct,
  Procedure: CompletionItemKind.Module,
  Variation: CompletionItemKind.Module,
  Step: CompletionItemKind.Method,
};

/** A declaration by its name. */
export function offerOf(node: Declared, rank: number, detail?: string): readonly Offer[] {
  if (node.name === undefined) return [];
  const label = 'text' in node && typeof node.text === 'string' ? node.text : node.label;
  return [
    {
      label: node.name,
      kind: kinds[node.$type] ?? CompletionItemKind.Text,
      rank,
      detail: detail ?? whatIs(node),
      ...(label === undefined ? {} : { words: label }),
      documentation: documentation(node),
    },
  ];
}

/** Offers as the protocol writes them, each name once, with `range` as what they replace. */
export function itemsOf(offers: readonly Offer[], range: Range): CompletionItem[] {
  const met = new Set<string>();
  const items: CompletionItem[] = [];
  for (const [at, { label, kind, rank, detail, words, documentation }] of offers.entries()) {
    if (met.has(label)) continue;
    met.add(label);
    items.push({
      label,
      kind,
      sortText: `${String(rank).padStart(2, '0')}${String(at).padStart(4, '0')}`,
      textEdit: { range, newText: label },
      ...(detail === undefined ? {} : { detail }),
      ...(words === undefined ? {} : { filterText: `${label} ${words}`, labelDetails: { description: words } }),
      ...(documentation === undefined || documentation === ''
        ? {}
        : { documentation: { kind: 'markdown', value: documentation } }),
    });
  }
  return items.sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
}
