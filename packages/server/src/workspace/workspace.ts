import { isSheetDocument, type Neighbours, resolveUse, type SheetDocument, shippedUri } from '@quarrel/language';
import { shippedSheets } from '@quarrel/trade';
import {
  DefaultWorkspaceManager,
  DocumentState,
  type FileSystemNode,
  type FileSystemProvider,
  type LangiumDocument,
  type LangiumSharedCoreServices,
  type Stream,
  URI,
  UriUtils,
} from 'langium';
import type { WorkspaceFolder } from 'vscode-languageserver';

/** The sheets the server knows: those of the open folders, those that ship, and whatever any of them uses. */
export class SheetWorkspace extends DefaultWorkspaceManager {
  /** Every sheet is checked, open or not. */
  override initialBuildOptions = { validation: true };

  readonly #services: LangiumSharedCoreServices;
  readonly #files: FileSystemProvider;
  readonly #unreadable = new Set<string>();
  readonly #bounds = new Map<string, string>();

  constructor(services: LangiumSharedCoreServices) {
    super(services);
    this.#services = services;
    this.#files = services.workspace.FileSystemProvider;
    services.workspace.DocumentBuilder.onBuildPhase(DocumentState.Parsed, (documents) => this.#loadUsed(documents));
  }

  /** What is around a sheet. */
  neighboursOf(document: SheetDocument): Neighbours {
    const { LangiumDocuments } = this.#services.workspace;
    return {
      workspace: this.#boundOf(document.uri),
      shipped: Object.keys(shippedSheets),
      find: (uri) => {
        const found = LangiumDocuments.getDocument(URI.parse(uri));
        if (found !== undefined && isSheetDocument(found)) return found;
        return this.#unreadable.has(uri) ? 'unreadable' : 'missing';
      },
      known: () => LangiumDocuments.all.map(({ uri }) => uri.toString()),
    };
  }

  protected override async loadAdditionalDocuments(
    _folders: WorkspaceFolder[],
    collector: (document: LangiumDocument) => void,
  ): Promise<void> {
    for (const [name, text] of Object.entries(shippedSheets)) {
      collector(this.#services.workspace.LangiumDocumentFactory.fromString(text, URI.parse(shippedUri(name))));
    }
  }

  protected override async loadWorkspaceDocuments(
    uris: Stream<URI>,
    collector: (document: LangiumDocument) => void,
  ): Promise<void> {
    for (const uri of uris) {
      const document = await this.#open(uri);
      if (document !== undefined) collector(document);
    }
  }

  /** Whether a file or folder belongs to a workspace: as for the command, folders of packages and hidden ones do not. */
  override shouldIncludeEntry({ uri, isDirectory }: FileSystemNode): boolean {
    const name = UriUtils.basename(uri);
    if (name.startsWith('.')) return false;
    return isDirectory ? name !== 'node_modules' : this.serviceRegistry.hasServices(uri);
  }

  /** Reads what sheets use beyond what is known, and what that uses, so that their names are there when names are looked up. */
  async #loadUsed(documents: readonly LangiumDocument[]): Promise<void> {
    const met = [...documents];
    // `met` grows while it is walked.
    for (const document of met) {
      if (!isSheetDocument(document)) continue;
      for (const { path } of document.parseResult.value.uses) {
        if (path === undefined) continue;
        const resolved = resolveUse(path, document.uri.toString(), this.#boundOf(document.uri));
        if (resolved.kind === 'refused' || resolved.shipped) continue;
        const uri = URI.parse(resolved.uri);
        if (this.langiumDocuments.hasDocument(uri)) continue;
        const used = await this.#open(uri);
        if (used === undefined) continue;
        // It takes part in this build without being built, and is built whole in the next.
        used.state = DocumentState.ComputedScopes;
        met.push(used);
      }
    }
    for (const document of met.slice(documents.length)) {
      await this.#services.ServiceRegistry.getServices(document.uri).references.Linker.link(document);
    }
  }

  /** Reads a sheet; nothing where it is not there or is no text, which is told where it is used. */
  async #open(uri: URI): Promise<LangiumDocument | undefined> {
    const address = uri.toString();
    this.#unreadable.delete(address);
    try {
      if (!(await this.#files.exists(uri))) return undefined;
      return await this.langiumDocuments.getOrCreateDocument(uri);
    } catch {
      this.#unreadable.add(address);
      return undefined;
    }
  }

  /**
   * The folder that a sheet's `use` must not lead out of: as for the command, the nearest one from the open folder upwards in
   * which a package or a repository begins, or else the open folder itself.
   */
  #boundOf(uri: URI): string {
    const address = uri.toString();
    const open = (this.folders ?? []).map((folder) => URI.parse(folder.uri)).filter((folder) => isIn(address, folder));
    const start = open.sort((a, b) => b.path.length - a.path.length)[0] ?? UriUtils.dirname(uri);
    const known = this.#bounds.get(start.toString());
    if (known !== undefined) return known;
    const bound = this.#beginningAbove(start).toString();
    this.#bounds.set(start.toString(), bound);
    return bound;
  }

  #beginningAbove(start: URI): URI {
    for (let folder = start; ; folder = UriUtils.dirname(folder)) {
      const marks = ['package.json', '.git'].map((mark) => UriUtils.joinPath(folder, mark));
      if (marks.some((mark) => this.#files.existsSync(mark))) return folder;
      if (UriUtils.dirname(folder).path === folder.path) return start;
    }
  }
}

function isIn(address: string, folder: URI): boolean {
  return address.startsWith(`${folder.toString().replace(/\/+$/, '')}/`);
}
