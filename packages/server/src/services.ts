import {
  createImports,
  QuarrelGeneratedModule,
  QuarrelGeneratedSharedModule,
  QuarrelModule,
  type QuarrelServices,
} from '@quarrel/language';
import {
  type DeepPartial,
  type DefaultSharedCoreModuleContext,
  EMPTY_STREAM,
  inject,
  type LocalSymbols,
  type Module,
} from 'langium';
import {
  createDefaultModule,
  createDefaultSharedModule,
  type LangiumLSPServices,
  type LangiumSharedServices,
  type PartialLangiumSharedServices,
} from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import { Checks } from './check/checks.js';
import { features, sharedFeatures } from './features/features.js';
import { QuarrelLanguageServer } from './language-server.js';
import { SheetBuilder } from './workspace/builder.js';
import { ForgetfulLinker } from './workspace/linker.js';
import { SheetIndex } from './workspace/sheet-index.js';
import { openTexts } from './workspace/texts.js';
import { SheetUpdates } from './workspace/updates.js';
import { SheetWorkspace } from './workspace/workspace.js';

interface AddedSharedServices {
  readonly workspace: {
    readonly IndexManager: SheetIndex;
    readonly WorkspaceManager: SheetWorkspace;
  };
}

interface AddedServices {
  readonly check: { readonly Checks: Checks };
}

/** The services of the whole server. */
export type SharedServices = LangiumSharedServices & AddedSharedServices;

/** The services of the language: reading sheets, checking them, and what an editor asks about them. */
export type LanguageServices = QuarrelServices &
  LangiumLSPServices &
  AddedServices & { readonly shared: SharedServices };

/** What the server is made of. */
export interface ServerServices {
  readonly shared: SharedServices;
  readonly quarrel: LanguageServices;
}

/** Names are looked up in tables of our own (`VisibleNames`), so that there is nothing to prepare in a sheet. */
const noSymbols: LocalSymbols = { has: () => false, getStream: () => EMPTY_STREAM };

const sharedModule: Module<SharedServices, PartialLangiumSharedServices & AddedSharedServices> = {
  workspace: {
    DocumentBuilder: (services) => new SheetBuilder(services),
    IndexManager: (services) => new SheetIndex(services),
    TextDocuments: openTexts,
    WorkspaceManager: (services) => new SheetWorkspace(services),
  },
  lsp: {
    DocumentUpdateHandler: (services) => new SheetUpdates(services),
    LanguageServer: (services) => new QuarrelLanguageServer(services),
    ...sharedFeatures,
  },
};

const languageModule: Module<LanguageServices, DeepPartial<QuarrelServices & LangiumLSPServices> & AddedServices> = {
  names: {
    Imports: ({ shared }) =>
      createImports(shared, (document) => shared.workspace.WorkspaceManager.neighboursOf(document)),
  },
  references: {
    Linker: (services) => new ForgetfulLinker(services),
    ScopeComputation: () => ({
      collectExportedSymbols: async () => [],
      collectLocalSymbols: async () => noSymbols,
    }),
  },
  check: { Checks: (services) => new Checks(services) },
  lsp: features,
};

/** The services of a server that speaks over `connection` and gets its files from `fileSystemProvider`. */
export function createServerServices(
  context: DefaultSharedCoreModuleContext & { readonly connection?: Connection },
): ServerServices {
  const shared = inject(createDefaultSharedModule(context), QuarrelGeneratedSharedModule, sharedModule);
  const quarrel = inject(createDefaultModule({ shared }), QuarrelGeneratedModule, QuarrelModule, languageModule);
  shared.ServiceRegistry.register(quarrel);
  shared.workspace.DocumentBuilder.onUpdate(() => quarrel.names.VisibleNames.clear());
  return { shared, quarrel };
}
