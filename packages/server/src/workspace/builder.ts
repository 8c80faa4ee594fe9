import { type BuildOptions, DefaultDocumentBuilder, interruptAndCheck, type LangiumDocument } from 'langium';
import type { CancellationToken } from 'vscode-languageserver';

/**
 * Langium's builder. Before it parses it hears what else has come in: of many edits in one burst only the last is parsed, as
 * every later one cancels the build before it.
 */
export class SheetBuilder extends DefaultDocumentBuilder {
  protected override async buildDocuments(
    documents: LangiumDocument[],
    options: BuildOptions,
    cancelToken: CancellationToken,
  ): Promise<void> {
    await new Promise<void>((resolve) => setTimeout(resolve, 0));
    await interruptAndCheck(cancelToken);
    await super.buildDocuments(documents, options, cancelToken);
  }

  /** Findings come from the checks, which publish them. */
  protected override async validate(): Promise<void> {}
}
