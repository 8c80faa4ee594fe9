import { isSheetDocument } from '@quarrel/language';
import type { LangiumDocument } from 'langium';
import { type Position, type SignatureHelp, SignatureInformation } from 'vscode-languageserver';
import type { LanguageServices } from '../../services.js';
import { askedAt } from '../completion/asked.js';
import { clausesOf } from '../completion/clauses.js';
import { list } from '../hover/markdown.js';
import { type Item, placeAt } from '../place/place.js';
import { missingIn } from './missing.js';

/** Asked for as a clause begins; asked again with every word while it is shown. */
export const signatureHelpOptions = { triggerCharacters: [';', ' '], retriggerCharacters: [',', '\n'] };

/** What a step has and what its acts still ask for, with the clause at the cursor marked; nothing outside of the braces of a step. */
export function signatureHelp(
  document: LangiumDocument,
  { position }: { readonly position: Position },
  services: LanguageServices,
): SignatureHelp | undefined {
  if (!isSheetDocument(document)) return undefined;
  const around = placeAt(document, document.textDocument.offsetAt(position), services, 'written');
  if (around.kind !== 'place') return undefined;
  const { place } = around;
  if (!/^(Step|InStep)$/.test(place.levels.at(-1)?.frame?.rule ?? '')) return undefined;
  const asked = askedAt(document, place, services);
  const clauses = clausesOf(asked);
  const missing = missingIn(asked);
  // A step that asks for nothing needs no help.
  if (missing.length === 0) return undefined;
  const has = clauses.map(({ tokens, rest }) => wordsOf([...tokens, ...rest]));
  const label = [...has, ...missing.map(({ clause }) => `+ ${clause}`)];
  const current = place.item.length === 0 ? has.length : clauses.findLastIndex(({ isBehind }) => !isBehind);
  const signature = SignatureInformation.create(label.join('; '));
  signature.parameters = partsOf(label);
  const still = list(
    'Still asked for:',
    missing.map(({ clause, why }) => `\`${clause}\`: ${why}`),
  );
  if (still !== undefined) signature.documentation = { kind: 'markdown', value: still };
  return { signatures: [signature], activeSignature: 0, activeParameter: Math.max(0, current) };
}

/** Where each part stands in the label. */
function partsOf(parts: readonly string[]): { label: [number, number] }[] {
  let at = 0;
  return parts.map((part) => {
    const start = at;
    at += part.length + '; '.length;
    return { label: [start, start + part.length] };
  });
}

/** A clause in few words: texts are cut short. */
function wordsOf(tokens: Item['tokens']): string {
  return tokens
    .map(({ image, tokenType }) =>
      tokenType.name === 'STRING' && image.length > longest ? `${image.slice(0, longest)}…"` : image,
    )
    .join(' ')
    .replaceAll(' ,', ',')
    .replace('{ }', '{ … }');
}

const longest = 20;
