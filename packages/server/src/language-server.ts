import { DefaultLanguageServer } from 'langium/lsp';
import type { InitializeParams, InitializeResult } from 'vscode-languageserver';

/** Langium's server; it also tells the editor of what Langium has no provider for. */
export class QuarrelLanguageServer extends DefaultLanguageServer {
  protected override buildInitializeResult(params: InitializeParams): InitializeResult {
    const result = super.buildInitializeResult(params);
    return { ...result, capabilities: { ...result.capabilities, selectionRangeProvider: true } };
  }
}
