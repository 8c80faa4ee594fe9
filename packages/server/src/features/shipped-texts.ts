import { shippedName } from '@quarrel/language';
import { shippedSheets } from '@quarrel/trade';
import type { TextDocumentContentProvider } from 'langium/lsp';
import { pageAt } from '../rule-pages.js';

/** The texts of what ships, which stand in no folder: sheets, and the pages of rules. */
export const shippedTexts: TextDocumentContentProvider = {
  schemes: ['quarrel'],
  provideTextDocumentContent: async ({ uri }) => {
    const page = pageAt(uri);
    const sheet = page === undefined ? shippedName(uri) : undefined;
    const text = page ?? (sheet === undefined ? undefined : shippedSheets[sheet]);
    return text === undefined ? undefined : { text };
  },
};
