import { readFileSync } from 'node:fs';
import { isSheetDocument, type SheetDocument, shippedUri } from '@quarrel/language';
import { EmptyFileSystem, TextDocument, URI } from 'langium';
import type { Position } from 'vscode-languageserver';
import { createServerServices, type ServerServices } from '../../packages/server/src/services.js';

/** Where the sheets of a test stand. */
const folder = 'file:///work/';

/** The server's services in one process, with sheets as if they were open in an editor. */
export interface World {
  readonly services: ServerServices;
  /** Opens a sheet, or changes the text of one that is open; it is linked and can be checked when the promise is kept. */
  open(name: string, text: string): Promise<SheetDocument>;
  /** The same for several sheets at once, which may use each other. */
  openAll(texts: Readonly<Record<string, string>>): Promise<ReadonlyMap<string, SheetDocument>>;
  /** Chooses settings under `quarrel`, as an editor would tell of them; those of before are gone. */
  configure(settings: object): void;
  /** A sheet that is open, or one that ships (`quarrel:NAME`). */
  sheet(name: string): SheetDocument;
}

/** A world with what ships and nothing else in it. */
export async function createWorld(): Promise<World> {
  const services = createServerServices({ ...EmptyFileSystem });
  const { shared } = services;
  const { ConfigurationProvider, DocumentBuilder, LangiumDocuments, TextDocuments, WorkspaceManager } =
    shared.workspace;
  await ConfigurationProvider.initialized({});
  await WorkspaceManager.initializeWorkspace([]);
  let version = 0;

  const sheet = (name: string): SheetDocument => {
    const found = LangiumDocuments.getDocument(URI.parse(addressOf(name)));
    if (found === undefined || !isSheetDocument(found)) throw new Error(`no sheet is called ${name}`);
    return found;
  };
  const openAll: World['openAll'] = async (texts) => {
    const uris = Object.entries(texts).map(([name, text]) => {
      const uri = addressOf(name);
      version += 1;
      TextDocuments.set(TextDocument.create(uri, 'quarrel', version, text));
      return URI.parse(uri);
    });
    await DocumentBuilder.update(uris, []);
    return new Map(Object.keys(texts).map((name) => [name, sheet(name)]));
  };
  return {
    services,
    sheet,
    openAll,
    configure: (settings) => ConfigurationProvider.updateConfiguration({ settings: { quarrel: settings } }),
    open: async (name, text) => {
      await openAll({ [name]: text });
      return sheet(name);
    },
  };
}

/** The address of a sheet in tests: `stone-chip` stands in one folder with all others, `quarrel:NAME` is what ships. */
export function addressOf(name: string): string {
  if (name.startsWith('quarrel:')) return shippedUri(name.slice('quarrel:'.length));
  return `${folder}${name}.quarrel`;
}

/** A text in which places are marked, without its marks. */
export interface Marked {
  readonly text: string;
  /** The first mark. */
  readonly cursor: Position;
  /** All marks, in order. */
  readonly cursors: readonly Position[];
}

/** The mark of a cursor in the text of a test. */
const mark = '<|>';

/** Takes the cursor marks `<|>` out of a text. Fails where there is none. */
export function marked(source: string): Marked {
  const pieces = source.split(mark);
  const text = pieces.join('');
  const document = TextDocument.create('file:///marked', 'quarrel', 0, text);
  const cursors: Position[] = [];
  let offset = 0;
  for (const piece of pieces.slice(0, -1)) {
    offset += piece.length;
    cursors.push(document.positionAt(offset));
  }
  const [cursor] = cursors;
  if (cursor === undefined) throw new Error(`there is no ${mark} in the text`);
  return { text, cursor, cursors };
}

/** A sheet of `examples/`: `school/stone-chip`. */
export function exampleText(path: string): string {
  return readFileSync(new URL(`../../examples/${path}.quarrel`, import.meta.url), 'utf8');
}
