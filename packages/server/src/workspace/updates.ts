import { shippedName } from '@quarrel/language';
import { type FileSystemProvider, type TextDocument, URI, UriUtils } from 'langium';
import { DefaultDocumentUpdateHandler, type LangiumSharedServices } from 'langium/lsp';
import {
  type DidChangeWatchedFilesParams,
  FileChangeType,
  type FileEvent,
  type TextDocumentChangeEvent,
} from 'vscode-languageserver';

/** Hears of edits and of files that come, change and go. Of a sheet that is open in the editor, the editor's text counts. */
export class SheetUpdates extends DefaultDocumentUpdateHandler {
  readonly #files: FileSystemProvider;
  readonly #isOpen: (uri: string) => boolean;

  constructor(services: LangiumSharedServices) {
    super(services);
    this.#files = services.workspace.FileSystemProvider;
    this.#isOpen = (uri) => services.workspace.TextDocuments.get(URI.parse(uri)) !== undefined;
  }

  override didChangeContent(change: TextDocumentChangeEvent<TextDocument>): void {
    // What ships never changes: the editor only shows it.
    if (shippedName(change.document.uri) === undefined) super.didChangeContent(change);
  }

  /** What is on disk counts again, if anything is there. */
  didCloseDocument({ document }: TextDocumentChangeEvent<TextDocument>): void {
    const { uri } = document;
    if (shippedName(uri) !== undefined) return;
    const address = URI.parse(uri);
    void this.workspaceManager.ready
      .then(() => this.#files.exists(address))
      .then((isThere) => (isThere ? this.fireDocumentUpdate([address], []) : this.fireDocumentUpdate([], [address])));
  }

  override didChangeWatchedFiles(params: DidChangeWatchedFilesParams): void {
    const changes = params.changes.filter((change) => !this.#isOpen(change.uri) && isOurs(change));
    if (changes.length > 0) super.didChangeWatchedFiles({ changes });
  }
}

/** Folders are told of only as they come and go; a file that merely changed matters where it is a sheet. */
function isOurs({ type, uri }: FileEvent): boolean {
  return type !== FileChangeType.Changed || UriUtils.extname(URI.parse(uri)) === '.quarrel';
}
