import type { Module } from 'langium';
import type { LangiumLSPServices, LangiumSharedLSPServices } from 'langium/lsp';
import type { LanguageServices, SharedServices } from '../services.js';
import { incomingCalls, outgoingCalls, prepareCalls } from './call-hierarchy.js';
import { codeActions } from './code-actions/code-actions.js';
import { editSkills } from './code-actions/skills.js';
import { codeLenses } from './code-lenses.js';
import { complete, completionOptions } from './completion/completion.js';
import { documentLinks } from './document-links.js';
import { documentSymbols } from './document-symbols.js';
import { foldingRanges } from './folding.js';
import { formatter } from './format/format.js';
import { hover } from './hover/hover.js';
import { inlayHints } from './inlay-hints.js';
import { definition, documentHighlights, references } from './navigation.js';
import { prepareRename, rename } from './rename/rename.js';
import { semanticTokens } from './semantic-tokens.js';
import { shippedTexts } from './shipped-texts.js';
import { signatureHelp, signatureHelpOptions } from './signature-help/signature-help.js';
import { workspaceSymbols } from './workspace-symbols.js';

/** What an editor can ask of a sheet. Each is a function in a file of its own; here they are handed to Langium. */
export const features: Module<LanguageServices, Partial<LangiumLSPServices['lsp']>> = {
  CallHierarchyProvider: (services) => ({
    prepareCallHierarchy: (document, params) => prepareCalls(document, params, services),
    incomingCalls: ({ item }) => incomingCalls(item, services),
    outgoingCalls: ({ item }) => outgoingCalls(item, services),
  }),
  CodeActionProvider: (services) => {
    const skills = editSkills(services.shared.lsp.LanguageServer);
    return { getCodeActions: (document, params) => codeActions(document, params, services, skills()) };
  },
  CompletionProvider: (services) => ({
    completionOptions,
    getCompletion: (document, params) => complete(document, params, services),
  }),
  CodeLensProvider: (services) => ({ provideCodeLens: (document) => codeLenses(document, services) }),
  DefinitionProvider: (services) => ({ getDefinition: (document, params) => definition(document, params, services) }),
  DocumentHighlightProvider: (services) => ({
    getDocumentHighlight: (document, params) => documentHighlights(document, params, services),
  }),
  DocumentLinkProvider: (services) => ({ getDocumentLinks: (document) => documentLinks(document, services) }),
  DocumentSymbolProvider: () => ({ getSymbols: documentSymbols }),
  FoldingRangeProvider: () => ({ getFoldingRanges: foldingRanges }),
  Formatter: () => formatter,
  HoverProvider: (services) => ({ getHoverContent: (document, params) => hover(document, params, services) }),
  InlayHintProvider: (services) => ({ getInlayHints: (document, params) => inlayHints(document, params, services) }),
  ReferencesProvider: (services) => ({ findReferences: (document, params) => references(document, params, services) }),
  SemanticTokenProvider: () => semanticTokens,
  RenameProvider: (services) => ({
    prepareRename: (document, params) => prepareRename(document, params, services),
    rename: (document, params) => rename(document, params, services),
  }),
  SignatureHelp: (services) => ({
    signatureHelpOptions,
    provideSignatureHelp: (document, params) => signatureHelp(document, params, services),
  }),
};

/** What an editor can ask of the workspace. */
export const sharedFeatures: Module<SharedServices, Partial<LangiumSharedLSPServices['lsp']>> = {
  TextDocumentContentProvider: () => shippedTexts,
  WorkspaceSymbolProvider: (services) => ({ getSymbols: (params) => workspaceSymbols(params, services) }),
};
