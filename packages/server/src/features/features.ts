import type { Module } from 'langium';
import type { LangiumLSPServices, LangiumSharedLSPServices } from 'langium/lsp';
import type { LanguageServices, SharedServices } from '../services.js';
import { hover } from './hover/hover.js';
import { quickFixes } from './quick-fixes.js';
import { shippedTexts } from './shipped-texts.js';

/** What an editor can ask of a sheet. Each is a function in a file of its own; here they are handed to Langium. */
export const features: Module<LanguageServices, Partial<LangiumLSPServices['lsp']>> = {
  CodeActionProvider: (services) => ({
    getCodeActions: (document, params) => quickFixes(document, params, services),
  }),
  HoverProvider: (services) => ({ getHoverContent: (document, params) => hover(document, params, services) }),
};

/** What an editor can ask of the workspace. */
export const sharedFeatures: Module<SharedServices, Partial<LangiumSharedLSPServices['lsp']>> = {
  TextDocumentContentProvider: () => shippedTexts,
};
