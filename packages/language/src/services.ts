import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  EmptyFileSystem,
  inject,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type Module,
  type PartialLangiumCoreServices,
} from 'langium';
import { QuarrelAstReflection } from './generated/ast.js';
import { QuarrelGeneratedModule, QuarrelGeneratedSharedModule } from './generated/module.js';
import { createLowering, type Lowering } from './lower/sheets.js';
import { createImports, type Imports } from './names/imports.js';
import { SheetLinker } from './names/linker.js';
import { createScopeProvider } from './names/scope.js';
import { createVisibleNames, type VisibleNames } from './names/visible.js';
import { QuarrelLexer, QuarrelLexerMessages } from './syntax/lexer.js';
import { createQuarrelParser, ExpectedTokens } from './syntax/parser.js';
import { QuarrelTokenBuilder } from './syntax/tokens.js';
import { QuarrelValueConverter } from './syntax/values.js';

/** What the language adds to Langium's services. */
export interface QuarrelAddedServices {
  readonly names: {
    readonly Imports: Imports;
    readonly VisibleNames: VisibleNames;
  };
  readonly meaning: {
    readonly Lowering: Lowering;
  };
}

export type QuarrelServices = LangiumCoreServices & QuarrelAddedServices;

/** The language without an editor; an editor's module is injected beside it. */
export const QuarrelModule: Module<QuarrelServices, PartialLangiumCoreServices & QuarrelAddedServices> = {
  parser: {
    LangiumParser: (services) => createQuarrelParser(services),
    TokenBuilder: () => new QuarrelTokenBuilder(),
    Lexer: (services) => new QuarrelLexer(services),
    LexerErrorMessageProvider: () => new QuarrelLexerMessages(),
    ParserErrorMessageProvider: () => new ExpectedTokens(),
    ValueConverter: () => new QuarrelValueConverter(),
  },
  references: {
    Linker: (services) => new SheetLinker(services),
    ScopeProvider: (services) => createScopeProvider(services.names.VisibleNames, new QuarrelAstReflection()),
  },
  names: {
    Imports: (services) => createImports(services.shared),
    VisibleNames: (services) =>
      createVisibleNames(services.names.Imports, services.workspace.AstNodeDescriptionProvider),
  },
  meaning: {
    Lowering: (services) => createLowering(services),
  },
};

/** The services of the language, without files and without an editor. */
export function createQuarrelServices(): { shared: LangiumSharedCoreServices; quarrel: QuarrelServices } {
  const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), QuarrelGeneratedSharedModule);
  const quarrel = inject(createDefaultCoreModule({ shared }), QuarrelGeneratedModule, QuarrelModule);
  shared.ServiceRegistry.register(quarrel);
  shared.workspace.DocumentBuilder.onUpdate(() => quarrel.names.VisibleNames.clear());
  return { shared, quarrel };
}
