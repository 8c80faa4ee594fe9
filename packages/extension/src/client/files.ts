import {
  type FileParams,
  type FolderAnswer,
  type LookAnswer,
  methods,
  type ReadAnswer,
} from '@quarrel/server/protocol';
import { type Disposable, FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

/** Answers a server that has no files of its own. What is not there, or cannot be read, is told as missing. */
export function answerForFiles(client: BaseLanguageClient): Disposable[] {
  return [
    client.onRequest(methods.look, async ({ uri }: FileParams): Promise<LookAnswer> => ({ kind: await kindOf(uri) })),
    client.onRequest(
      methods.folder,
      async ({ uri }: FileParams): Promise<FolderAnswer> => ({ entries: await folder(uri) }),
    ),
    client.onRequest(methods.read, async ({ uri }: FileParams): Promise<ReadAnswer> => read(uri)),
  ];
}

async function kindOf(uri: string): Promise<LookAnswer['kind']> {
  try {
    return fileOrFolder((await workspace.fs.stat(Uri.parse(uri))).type);
  } catch {
    return 'missing';
  }
}

async function folder(uri: string): Promise<FolderAnswer['entries']> {
  try {
    const entries = await workspace.fs.readDirectory(Uri.parse(uri));
    return entries.map(([name, type]) => ({ name, kind: fileOrFolder(type) }));
  } catch {
    return [];
  }
}

async function read(uri: string): Promise<ReadAnswer> {
  try {
    const bytes = await workspace.fs.readFile(Uri.parse(uri));
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return {};
  }
}

function fileOrFolder(type: FileType): 'file' | 'folder' {
  return (type & FileType.Directory) === 0 ? 'file' : 'folder';
}
