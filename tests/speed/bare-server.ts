// A language server that parses and links sheets and does nothing more: Langium's own services on our grammar, with no more of
// ours than the tokens without which the grammar cannot be read. It tells of a sheet, without any finding, as soon as it is
// linked. Our server is measured against it.
import { QuarrelGeneratedModule, QuarrelGeneratedSharedModule } from '@quarrel/language';
import { shippedSheets } from '@quarrel/trade';
import { DefaultWorkspaceManager, DocumentState, inject, type LangiumDocument, type Module, URI } from 'langium';
import {
  createDefaultModule,
  createDefaultSharedModule,
  type LangiumServices,
  type LangiumSharedServices,
  type PartialLangiumServices,
  type PartialLangiumSharedServices,
  startLanguageServer,
} from 'langium/lsp';
import { NodeFileSystem } from 'langium/node';
import { createConnection, ProposedFeatures, type WorkspaceFolder } from 'vscode-languageserver/node';
import { QuarrelLexer } from '../../packages/language/src/syntax/lexer.js';
import { QuarrelTokenBuilder } from '../../packages/language/src/syntax/tokens.js';

/** Knows the sheets that ship beside those of the folders, as our server does. */
class Workspace extends DefaultWorkspaceManager {
  protected override async loadAdditionalDocuments(
    _folders: WorkspaceFolder[],
    collector: (document: LangiumDocument) => void,
  ): Promise<void> {
    for (const [name, text] of Object.entries(shippedSheets)) {
      collector(shared.workspace.LangiumDocumentFactory.fromString(text, URI.parse(`quarrel:/${name}.quarrel`)));
    }
  }
}

const sharedModule: Module<LangiumSharedServices, PartialLangiumSharedServices> = {
  workspace: { WorkspaceManager: (services) => new Workspace(services) },
};
const languageModule: Module<LangiumServices, PartialLangiumServices> = {
  parser: {
    TokenBuilder: () => new QuarrelTokenBuilder(),
    Lexer: (services) => new QuarrelLexer(services),
  },
};

const connection = createConnection(ProposedFeatures.all);
const shared = inject(
  createDefaultSharedModule({ connection, ...NodeFileSystem }),
  QuarrelGeneratedSharedModule,
  sharedModule,
);
shared.ServiceRegistry.register(inject(createDefaultModule({ shared }), QuarrelGeneratedModule, languageModule));

shared.workspace.DocumentBuilder.updateBuildOptions = { validation: false };
shared.workspace.DocumentBuilder.onDocumentPhase(DocumentState.Linked, (document) => {
  const uri = document.uri.toString();
  const version = shared.workspace.TextDocuments.get(document.uri)?.version;
  if (version !== undefined) void connection.sendDiagnostics({ uri, version, diagnostics: [] });
});
startLanguageServer(shared);
