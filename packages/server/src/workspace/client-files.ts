import { EmptyFileSystemProvider, type FileSystemNode, type URI, UriUtils } from 'langium';
import type { Connection } from 'vscode-languageserver';
import { type FileParams, type FolderAnswer, type LookAnswer, methods, type ReadAnswer } from '../protocol.js';

/** The files of the client, for a server in a browser, which has none. */
export class ClientFiles extends EmptyFileSystemProvider {
  readonly #connection: Connection;

  constructor(connection: Connection) {
    super();
    this.#connection = connection;
  }

  override async stat(uri: URI): Promise<FileSystemNode> {
    const { kind } = await this.#look(uri);
    return { uri, isFile: kind === 'file', isDirectory: kind === 'folder' };
  }

  override async exists(uri?: URI): Promise<boolean> {
    return uri !== undefined && (await this.#look(uri)).kind !== 'missing';
  }

  override async readFile(uri?: URI): Promise<string> {
    const answer = uri === undefined ? {} : await this.#ask<ReadAnswer>(methods.read, uri);
    if (answer.text === undefined) throw new RangeError(`${uri?.path} is no text`);
    return answer.text;
  }

  override async readDirectory(uri?: URI): Promise<FileSystemNode[]> {
    if (uri === undefined) return [];
    const { entries } = await this.#ask<FolderAnswer>(methods.folder, uri);
    return entries.map(({ name, kind }) => ({
      uri: UriUtils.joinPath(uri, name),
      isFile: kind === 'file',
      isDirectory: kind === 'folder',
    }));
  }

  #look(uri: URI): Promise<LookAnswer> {
    return this.#ask(methods.look, uri);
  }

  #ask<Answer>(method: string, uri: URI): Promise<Answer> {
    return this.#connection.sendRequest<Answer>(method, { uri: uri.toString() } satisfies FileParams);
  }
}
