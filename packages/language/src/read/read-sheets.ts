import type { Problem, Sheet } from '@quarrel/model';
import { shippedSheets } from '@quarrel/trade';
import { DocumentState, URI } from 'langium';
import type * as ast from '../generated/ast.js';
import { Places } from '../lower/places.js';
import { lowerSheets } from '../lower/sheets.js';
import { resolveUse, shippedName } from '../names/addresses.js';
import { type Neighbours, type SheetDocument, usesIn } from '../names/imports.js';
import { createQuarrelServices } from '../services.js';
import type { SheetSource, SheetText } from './source.js';

export interface ReadOptions {
  /** The URI of the folder outside of which `use` may not lead; without it, `use` may lead anywhere. */
  readonly workspace?: string;
  /** The sheets that ship, text by name; those of `@quarrel/trade` where nothing else is said. */
  readonly shipped?: Readonly<Record<string, string>>;
}

export interface ReadResult {
  /** The sheets asked for, in that order. One that cannot be read is empty but for the problem that says so. */
  readonly sheets: readonly Sheet[];
  /** What they pulled in by `use`, in the order met. */
  readonly others: readonly Sheet[];
  /** The text of every sheet read, by its address as the sheets and ranges give it. */
  readonly texts: ReadonlyMap<string, string>;
}

/** The services are made once: that costs more than reading a sheet. */
let made: ReturnType<typeof createQuarrelServices> | undefined;

/** The services that sheets are read with. */
export function sharedServices(): ReturnType<typeof createQuarrelServices> {
  made ??= createQuarrelServices();
  return made;
}

interface Opened {
  readonly uri: string;
  readonly text: SheetText;
  readonly document?: SheetDocument;
}

/**
 * Reads sheets and what they use, and lowers them to the model. Nothing throws on what a sheet says: what is wrong with a text
 * is in the `problems` of its sheet. The source is asked for every sheet once; for a shipped sheet that it does not have,
 * `options.shipped` is.
 */
export async function readSheets(
  uris: readonly string[],
  source: SheetSource,
  options: ReadOptions = {},
): Promise<ReadResult> {
  const { shared, quarrel } = sharedServices();
  const shipped = options.shipped ?? shippedSheets;
  const opened = new Map<string, Opened>();
  const open = async (address: string): Promise<Opened> => {
    const uri = URI.parse(address).toString();
    const known = opened.get(uri);
    if (known !== undefined) return known;
    const text = await textOf(uri, source, shipped);
    const document =
      text.kind === 'text'
        ? shared.workspace.LangiumDocumentFactory.fromString<ast.Sheet>(text.text, URI.parse(uri))
        : undefined;
    const one: Opened = { uri, text, ...(document === undefined ? {} : { document }) };
    opened.set(uri, one);
    return one;
  };

  const asked: Opened[] = [];
  for (const uri of uris) asked.push(await open(uri));
  // `opened` grows while it is walked: what a sheet uses comes behind it.
  for (const { uri, document } of opened.values()) {
    for (const { path } of document?.parseResult.value.uses ?? []) {
      const resolved = path === undefined ? undefined : resolveUse(path, uri, options.workspace);
      if (resolved?.kind === 'address') await open(resolved.uri);
    }
  }
  const neighbours: Neighbours = {
    workspace: options.workspace,
    shipped: Object.keys(shipped),
    find: (uri) => {
      const one = opened.get(URI.parse(uri).toString());
      return one?.document ?? (one?.text.kind === 'unreadable' ? 'unreadable' : 'missing');
    },
    known: () => readable(opened),
  };
  const documents = [...opened.values()].flatMap(({ document }) => document ?? []);
  for (const document of documents) quarrel.names.Imports.register(document, usesIn(document, neighbours));
  for (const document of documents) {
    document.state = DocumentState.ComputedScopes;
    await quarrel.references.Linker.link(document);
  }
  const lowered = new Map(lowerSheets(documents, quarrel).map((sheet) => [sheet.uri, sheet]));
  const own = new Set(asked.map(({ uri }) => uri));
  return {
    sheets: asked.map(({ uri, text }) => lowered.get(uri) ?? unreadSheet(uri, text)),
    others: [...lowered.values()].filter(({ uri }) => !own.has(uri)),
    texts: new Map([...opened.values()].flatMap(({ uri, text }) => (text.kind === 'text' ? [[uri, text.text]] : []))),
  };
}

/** The addresses of the sheets that are there. */
function readable(opened: ReadonlyMap<string, Opened>): readonly string[] {
  return [...opened.values()].flatMap(({ uri, text }) => (text.kind === 'text' ? [uri] : []));
}

async function textOf(uri: string, source: SheetSource, shipped: Readonly<Record<string, string>>): Promise<SheetText> {
  const found = await source.read(uri);
  const name = shippedName(uri);
  const text = name !== undefined && Object.hasOwn(shipped, name) ? shipped[name] : undefined;
  return found.kind === 'missing' && text !== undefined ? { kind: 'text', text } : found;
}

function unreadSheet(uri: string, text: SheetText): Sheet {
  const range = new Places(uri).of(undefined);
  const reason = text.kind === 'unreadable' ? 'unreadable' : shippedName(uri) === undefined ? 'missing' : 'not-shipped';
  const problem: Problem = { rule: 'unknown-sheet', path: uri, reason, candidates: [], range };
  return { uri, procedures: [], acts: [], rules: [], problems: [problem] };
}
