import { readFile } from 'node:fs/promises';
import type { URI } from 'langium';
import { NodeFileSystemProvider } from 'langium/node';

/** No sheet is larger; what is, is no sheet. The command draws the same line. */
const mostBytes = 16 * 1024 * 1024;

/** The files of this machine. What is not text in UTF-8 cannot be read. */
export class SheetFiles extends NodeFileSystemProvider {
  override async readFile(uri: URI): Promise<string> {
    const bytes = await readFile(uri.fsPath);
    if (bytes.length > mostBytes || bytes.includes(0)) throw new RangeError(`${uri.path} is no sheet`);
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  }
}
