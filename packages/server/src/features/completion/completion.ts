import { isSheetDocument, type SheetDocument } from '@quarrel/language';
import type { LangiumDocument } from 'langium';
import type { CompletionProviderOptions } from 'langium/lsp';
import { CompletionList, type CompletionParams } from 'vscode-languageserver';
import type { LanguageServices } from '../../services.js';
import { type Place, placeAt } from '../place/place.js';
import type { Thread } from '../place/threads.js';
import { type Asked, askedAt } from './asked.js';
import { isAskedAlready, wordFor } from './keywords.js';
import { assumptionsFor, propertiesFor, topicsFor, unitsFor } from './measures.js';
import { namesFor } from './names.js';
import { itemsOf, type Offer } from './offer.js';
import { pathsFor } from './sheets.js';

/** A space brings the next word of a clause, a quotation mark the path of a `use`, a colon what a case chooses. */
export const completionOptions: CompletionProviderOptions = { triggerCharacters: [' ', '"', '/', ':'] };

/** What may stand at a place and makes sense there, the most fitting first. Nothing inside texts and comments, but for paths. */
export function complete(
  document: LangiumDocument,
  { position }: CompletionParams,
  services: LanguageServices,
): CompletionList {
  const { textDocument } = document;
  const offset = textDocument.offsetAt(position);
  if (!isSheetDocument(document)) return CompletionList.create([]);
  const around = placeAt(document, offset, services);
  if (around.kind === 'nothing') return CompletionList.create([]);
  if (around.kind === 'text') {
    const { start, end, before } = around;
    return before?.tokenType.name === 'use' ? paths(document, start, end, services) : CompletionList.create([]);
  }
  const { place } = around;
  const asked = askedAt(document, place, services);
  const offers = threadsAt(place).flatMap((thread) => offersFor(thread, asked, services));
  const range = { start: textDocument.positionAt(place.start), end: textDocument.positionAt(place.end) };
  return CompletionList.create(itemsOf(offers, range));
}

/** What goes on with a quantity stands on its line. */
const staysOnLine = /^(Span|Quantity|Amount|PropertyEntry)$/;

/**
 * What may stand here. Another clause begins on a line of its own, behind `;` or behind a brace: where the clause before it is
 * complete, the grammar would take it anywhere. `do … with` and `read … accept` are said in one go.
 */
function threadsAt({ threads, levels, previous, isFirst, item }: Place): readonly Thread[] {
  const base = levels.at(-1)?.base ?? [];
  if (!isFirst && previous?.tokenType.name === 'NUMBER')
    return threads.filter(({ expected }) => followsNumber(expected));
  if (item.length === 0) return threads.length > 0 ? threads : base;
  const beginnings = new Set(base.map(({ expected }) => expected));
  const going = threads.filter(({ expected }) => !beginnings.has(expected));
  if (isFirst) return [...going.filter(({ expected }) => !staysOnLine.test(expected.rule)), ...base];
  if (previous?.tokenType.name === '}') return [...going, ...base];
  const joined = item[0]?.image === 'do' ? 'with' : item[0]?.image === 'read' ? 'accept' : undefined;
  return [
    ...going,
    ...threads.filter(
      ({ expected }) => beginnings.has(expected) && expected.keyword === joined && joined !== undefined,
    ),
  ];
}

/** A number has a unit, or takes that of the other end of its span. */
function followsNumber({ terminal, keyword }: Thread['expected']): boolean {
  return terminal === 'UNIT' || keyword === 'to' || keyword === 'times';
}

function offersFor(thread: Thread, asked: Asked, services: LanguageServices): readonly Offer[] {
  const { keyword, terminal, refers, rule, feature } = thread.expected;
  if (isAskedAlready(thread, asked.place)) return [];
  if (keyword !== undefined) return wordFor(thread, asked, services.Grammar);
  if (refers !== undefined) return namesFor(thread, asked);
  if (terminal === 'UNIT') return unitsFor(thread, asked);
  switch (`${rule}.${feature}`) {
    case 'Property.property':
      return propertiesFor(thread, asked);
    case 'Assumed.property':
      return assumptionsFor(thread);
    case 'Assume.topic':
      return topicsFor();
    default:
      return [];
  }
}

function paths(document: SheetDocument, start: number, end: number, services: LanguageServices): CompletionList {
  const { textDocument } = document;
  const written = textDocument.getText().slice(start + 1, end);
  const isClosed = /["“”]$/.test(written);
  const path = isClosed ? written.slice(0, -1) : written;
  const range = { start: textDocument.positionAt(start + 1), end: textDocument.positionAt(start + 1 + path.length) };
  return CompletionList.create(itemsOf(pathsFor(document, path, services), range));
}
